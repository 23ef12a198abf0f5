//! A place where the tube meets itself.

/// A place where the tube meets itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Meeting {
    /// Station of the nearest place on the first stretch, mm along the tube.
    pub first_mm: f64,
    /// Station of the nearest place on the second stretch, mm along the tube.
    pub second_mm: f64,
    /// Distance of the two centrelines there, mm, to within 1e-6 mm; the tube's surfaces go OD less this
    /// into one another. (Where a radius is below OD/2, to within OD/16: the tube is pinched anyway.)
    pub distance_mm: f64,
    /// The stretch about `first_mm` that lies within OD of the other one, mm along the tube.
    pub first_stretch_mm: (f64, f64),
    /// The stretch about `second_mm` that lies within OD of the other one, mm along the tube.
    pub second_stretch_mm: (f64, f64),
    /// Element of the first place: even for straights, odd for arcs.
    pub first_element: usize,
    /// Element of the second place.
    pub second_element: usize,
}
