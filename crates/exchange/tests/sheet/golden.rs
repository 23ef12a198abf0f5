//! The text of one sheet as it stood when somebody last looked at it. Where it has changed on purpose, look at the sheet and
//! copy what the test wrote over the golden file.

use std::path::PathBuf;

use elbowroom_exchange::sheet::Label;

use super::parts::{demo_parts, plain};

#[test]
fn the_sheet_of_the_footwell_jog_says_what_it_said() {
    let part = demo_parts().into_iter().find(|part| part.name == "Footwell jog").unwrap();
    let mut said = String::new();
    for (index, page) in plain(&part).pages.iter().enumerate() {
        said += &format!("== Sheet {}, {:.0} by {:.0} mm\n", index + 1, page.size[0], page.size[1]);
        let line = |label: &Label| format!("{:6.1} {:6.1}  {}\n", label.at.x, label.at.y, label.text);
        said.extend(page.labels().map(line));
    }
    let golden = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/golden/sheet.txt");
    let wanted = std::fs::read_to_string(&golden).unwrap_or_default();
    if said != wanted {
        let written = std::env::temp_dir().join("elbowroom-sheet.txt");
        std::fs::write(&written, &said).unwrap();
        let at = said.lines().zip(wanted.lines()).position(|(a, b)| a != b).unwrap_or(0);
        panic!(
            "line {}: \"{}\" was \"{}\"; all of it is in {}",
            at + 1,
            said.lines().nth(at).unwrap_or(""),
            wanted.lines().nth(at).unwrap_or(""),
            written.display()
        );
    }
}
