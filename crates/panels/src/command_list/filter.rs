//! Which commands a typed text means.

use super::model::Entry;

/// The entries whose name has every word typed, those that begin with the text first; all of them where
/// nothing is typed. Indices into `entries`.
pub fn matching(entries: &[Entry], typed: &str) -> Vec<usize> {
    let typed = typed.trim().to_lowercase();
    let words: Vec<&str> = typed.split_whitespace().collect();
    let mut found: Vec<(u8, usize)> = entries
        .iter()
        .enumerate()
        .filter_map(|(index, entry)| {
            let label = entry.label.to_lowercase();
            let rest = entry.tooltip.to_lowercase();
            let in_label = words.iter().all(|word| label.contains(word));
            let anywhere = words.iter().all(|word| label.contains(word) || rest.contains(word));
            let rank = match (label.starts_with(&typed), in_label, anywhere) {
                (true, ..) => 0,
                (false, true, _) => 1,
                (false, false, true) => 2,
                _ => return None,
            };
            Some((rank, index))
        })
        .collect();
    found.sort();
    found.into_iter().map(|(_, index)| index).collect()
}

#[cfg(test)]
mod tests {
    use elbowroom_workbench::Command;

    use super::*;

    fn entry(label: &str, tooltip: &str) -> Entry {
        Entry {
            label: label.to_owned(),
            tooltip: tooltip.to_owned(),
            shortcut: String::new(),
            disabled: None,
            command: Command::Undo,
        }
    }

    #[test]
    fn words_in_any_order_find_a_command() {
        let entries = [entry("Save as", "Under another name"), entry("Undo", ""), entry("Show all saved", "")];
        assert_eq!(matching(&entries, ""), [0, 1, 2]);
        assert_eq!(matching(&entries, "SAVE"), [0, 2]);
        assert_eq!(matching(&entries, "all show"), [2]);
        assert_eq!(matching(&entries, "another"), [0]);
        assert!(matching(&entries, "bake").is_empty());
    }
}
