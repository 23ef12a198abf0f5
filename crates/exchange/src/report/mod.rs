//! Reports for scripts as JSON, for people as text: of a check, of a bend program, of a comparison of
//! tooling, of a measured first-off.

mod around_json;
mod around_text;
mod compare;
mod first_off;
mod formed_json;
mod formed_text;
mod json;
mod program;
mod sink;
mod system;
mod table;
mod text;

pub use compare::{compare_to_json, compare_to_text};
pub use first_off::{JudgedJob, first_off_to_json, first_off_to_text};
pub use json::{to_json, write_json};
pub use program::{program_to_csv, program_to_json, program_to_text};
pub use system::{write_system_json, write_system_text};
pub use text::{TextContext, to_text, write_text};
