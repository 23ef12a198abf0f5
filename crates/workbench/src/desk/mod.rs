//! What lies on the desk: the selection and how it follows an edit, the sheet on top, what went wrong, the colours.

pub(crate) mod follow;
pub(crate) mod holding;
pub(crate) mod judged;
pub(crate) mod measuring;
pub(crate) mod palette;
pub(crate) mod proposal;
pub(crate) mod run;
pub(crate) mod selection;
pub(crate) mod sheet;
pub(crate) mod trouble;
pub(crate) mod vertices;
