//! What a person says about a sheet beside the part itself.

use elbowroom_geometry::units::LengthUnit;

use super::ink::Paper;

/// What a person says about a sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SheetOptions {
    /// The paper.
    pub paper: Paper,
    /// The unit of every length; that of the part where nothing is said.
    pub units: Option<LengthUnit>,
    /// Whether full-size templates come at the end.
    pub templates: bool,
    /// For whom; empty where nobody is named.
    pub customer: String,
    /// Which revision of the drawing; empty where none is told.
    pub revision: String,
    /// By whom; empty where nobody is named.
    pub drawn_by: String,
    /// When, as it is printed.
    pub date: String,
}
