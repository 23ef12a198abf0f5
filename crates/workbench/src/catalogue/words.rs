//! Everyday words by which people look for a verb that is called otherwise here.

/// Verbs by their names, with further words that find them.
const WORDS: &[(&str, &str)] = &[
    ("new", "create blank start fresh"),
    ("open", "load import read file"),
    ("save", "store write keep"),
    ("save-as", "copy rename file store write"),
    ("export", "write convert dxf step stl pdf print"),
    ("quit", "exit close leave end"),
    ("undo", "back revert"),
    ("redo", "forward again repeat"),
    ("select-all", "everything mark"),
    ("delete", "delete erase cut drop"),
    ("escape", "cancel deselect none nothing abort"),
    ("place", "translate shift rotate flip reflect symmetry ground"),
    ("measure", "distance length dimension ruler height size gap clearance"),
    ("around", "obstacle obstacles chassis clearance collision mesh import car box"),
    ("swap-ends", "reverse flip direction"),
    ("vertices-or-rows", "convert form points lra"),
    ("rename-tube", "name title call"),
    ("hold", "pin lock fix anchor freeze"),
    ("hold-direction", "pin lock fix anchor freeze tangent"),
    ("hold-ends", "pin lock fix anchor freeze"),
    ("free-all", "unpin unlock release"),
    ("frame-all", "fit zoom whole everything home"),
    ("frame-selection", "fit zoom selected"),
    ("from-front", "front view elevation"),
    ("from-back", "back rear view elevation"),
    ("from-left", "left side view elevation"),
    ("from-right", "right side view elevation"),
    ("from-top", "top plan view"),
    ("from-bottom", "bottom underside view"),
    ("from-corner", "isometric axonometric 3d view"),
    ("projection", "orthographic ortho parallel flat perspective"),
    ("bench", "drawer material die clamp stock machine"),
    ("shop", "machine tooling dies clamps settings setup limits"),
    ("program", "setup sheet steps feed lra print"),
    ("at-machine", "big large letters step steps"),
    ("tooling", "compare dies clamps alternatives"),
    ("springback", "spring trial calibrate"),
    ("first-off", "inspect inspection measured correct correction"),
    ("forming", "wall thinning stretch mandrel seam"),
    ("commands", "search find palette"),
    ("help", "shortcuts keyboard manual"),
    ("theme", "dark light night colours colors appearance"),
    ("larger", "bigger zoom scale text font"),
    ("smaller", "zoom scale text font"),
    ("show-millimetres", "units metric mm"),
    ("show-inches", "units imperial in"),
    ("rows-or-points", "xyz coordinates vertices table"),
    ("worst-finding", "problem error next"),
];

/// Further words that find a verb; empty where there are none.
pub(super) fn of(id: &str) -> &'static str {
    WORDS.iter().find(|(verb, _)| *verb == id).map_or("", |(_, words)| words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{matching, verb};

    #[test]
    fn each_belongs_to_a_verb() {
        for (id, _) in WORDS {
            assert!(verb(id).is_some(), "{id}");
        }
    }

    #[test]
    fn everyday_words_find_what_is_meant() {
        for (word, id) in [
            ("delete", "delete"),
            ("rename", "rename-tube"),
            ("orthographic", "projection"),
            ("top", "from-top"),
            ("fit", "frame-all"),
            ("mirror", "place"),
            ("flip", "place"),
            ("dark", "theme"),
            ("distance", "measure"),
            ("reverse", "swap-ends"),
        ] {
            assert!(matching(word).iter().take(3).any(|verb| verb.id == id), "{word} does not find {id}");
        }
    }
}
