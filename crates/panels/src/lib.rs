//! The egui panels. Each is a module with a `Model::of(&Workbench)`, a plain value with a text snapshot
//! (`Display`), and a `ui` that draws the model and returns [`Command`](elbowroom_workbench::Command)s.
//! A panel never changes the workbench; what a person is in the midst of typing lives in [`PanelState`].
//!
//! The window calls [`install`] once a frame, then [`show`] with the root [`egui::Ui`], and performs the
//! commands that come back. The middle, [`Shown::scene`], is left to the scene.
//!
//! To add a panel: one module, one line in the [registry](panel::REGISTRY), a snapshot test and a picture.

pub mod around;
pub mod at_machine;
pub mod bar;
pub mod bench;
mod colours;
pub mod command_list;
pub mod findings;
pub mod first_off;
mod fonts;
pub mod forming;
pub mod help;
pub mod here_menu;
pub mod hints;
mod layout;
pub mod manual;
pub mod marks_legend;
pub mod measuring;
pub mod message;
pub mod panel;
pub mod placing;
pub mod program;
pub mod question;
pub mod rows;
pub mod sheets;
pub mod shop;
pub mod shop_in_use;
mod shortcuts;
pub mod springback;
mod state;
pub mod strip;
mod style;
mod told;
pub mod tooling;
pub mod troubles;
pub mod tubes;
pub mod verdict;
pub mod why;
pub mod widgets;

pub use colours::{colour, colours};
pub use fonts::bold;
pub use layout::{Shown, show};
pub use shortcuts::shortcuts;
pub use state::PanelState;
pub use style::{heading_text, install, verdict_text};
