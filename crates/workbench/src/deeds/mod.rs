//! What the workbench does: each command, and what it brings about on the document, the desk and the shelf.

mod at_home;
mod at_machine;
mod documents;
mod editing;
mod exporting;
mod first_off;
mod measuring;
mod obstacles;
mod perform;
mod saving;
mod shop_editing;
mod troubles;
