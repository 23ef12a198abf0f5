//! Puts the springback records of a shop into the text of its file, so that the comments round them stay.

use elbowroom_bending::Shop;
use ron::ser::PrettyConfig;

use super::format::options;
use super::kinds;
use super::springback_v2::SpringbackV2;
use super::tokens::token;

/// The text of a shop file with the springback records of `shop` in place of its own, in today's version. `None` where
/// the text is not written as shop files are; the caller must read back what comes out.
pub(crate) fn with_springback(text: &str, shop: &Shop) -> Option<String> {
    let records: Vec<SpringbackV2> = shop.springback.iter().cloned().map(SpringbackV2).collect();
    let config = PrettyConfig::new().new_line("\n").indentor("    ").depth_limit(2);
    let list = options().to_string_pretty(&records, config).ok()?.replace('\n', "\n    ");
    let fields = Fields::of(text)?;
    let (from, to) = fields.format?;
    let mut changes = vec![(from, to, format!("\"{}\"", kinds::SHOP.newest()))];
    match (fields.springback, records.is_empty()) {
        (Some((from, to)), _) => changes.push((from, to, list)),
        (None, true) => {}
        (None, false) => {
            let comma = if fields.needs_comma { "," } else { "" };
            changes.push((fields.last, fields.last, format!("{comma}\n\n    springback: {list},")));
        }
    }
    // From the end backwards, so that what lies before stays where it was.
    changes.sort_by_key(|(from, ..)| std::cmp::Reverse(*from));
    let mut text = text.to_owned();
    for (from, to, what) in changes {
        text.replace_range(from..to, &what);
    }
    Some(text)
}

/// Where the fields of a shop file lie in its text, in bytes.
struct Fields {
    /// The value of the field `format`.
    format: Option<(usize, usize)>,
    /// The value of the field `springback`, from its first byte to after its last one.
    springback: Option<(usize, usize)>,
    /// After the last thing within the outer brackets that is no space and no comment.
    last: usize,
    /// Whether that is no comma.
    needs_comma: bool,
}

impl Fields {
    /// The fields in a text; `None` where it ends too early or is no list of fields.
    fn of(text: &str) -> Option<Self> {
        let (mut depth, mut at, mut last) = (0_usize, 0, None);
        let (mut format, mut springback, mut from) = (None, None, None);
        let mut before = ["", ""];
        loop {
            let token = token(text, at)?;
            let word = &text[token.0..token.1];
            if depth == 1 && before == ["springback", ":"] {
                from = Some(token.0);
            }
            if depth == 1 && before == ["format", ":"] {
                format = Some(token);
            }
            match word {
                "(" | "[" | "{" => depth += 1,
                ")" | "]" | "}" => depth = depth.checked_sub(1)?,
                _ => {}
            }
            if depth == 0 {
                let last: usize = last?;
                return Some(Self { format, springback, last, needs_comma: before[1] != "," });
            }
            if depth == 1
                && word == "]"
                && let Some(from) = from.take()
            {
                springback = Some((from, token.1));
            }
            if at > 0 {
                last = Some(token.1);
            }
            before = [before[1], word];
            at = token.1;
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::{Knowledge, ShopEdit};

    use super::*;
    use crate::shelf::file::{BUILT_IN_SHOP_TEXT, built_in_shop, read_shop, write_shop};

    fn knowing(shop: &Shop, stretch: f64) -> Shop {
        let die = shop.die_sets[0].name.clone();
        let what = Knowledge::Stretch(Some(stretch));
        ShopEdit { die, material: "304 stainless".into(), what }.applied_to(shop).unwrap()
    }

    fn comments(text: &str) -> Vec<&str> {
        text.lines().map(str::trim).filter(|line| line.starts_with("//")).collect()
    }

    #[test]
    fn the_comments_of_a_file_stay() {
        let mut shop = built_in_shop();
        let mut text = BUILT_IN_SHOP_TEXT.to_owned();
        for stretch in [0.02, 0.0301] {
            shop = knowing(&shop, stretch);
            text = with_springback(&text, &shop).unwrap();
            assert_eq!(read_shop(&text, "a").unwrap(), shop);
            assert_eq!(comments(&text), comments(BUILT_IN_SHOP_TEXT));
        }
        text = with_springback(&text, &built_in_shop()).unwrap();
        assert_eq!(read_shop(&text, "a").unwrap(), built_in_shop());
    }

    #[test]
    fn an_older_file_becomes_one_of_today() {
        let older = BUILT_IN_SHOP_TEXT.replacen("elbowroom-shop/2", "elbowroom-shop/1", 1);
        assert_ne!(older, BUILT_IN_SHOP_TEXT);
        let shop = knowing(&built_in_shop(), 0.02);
        let text = with_springback(&older, &shop).unwrap();
        assert!(text.contains("format: \"elbowroom-shop/2\"") && !text.contains("elbowroom-shop/1"));
        assert_eq!((read_shop(&text, "a").unwrap(), comments(&text)), (shop, comments(&older)));
        // The version alone, where nothing has been found out.
        assert_eq!(with_springback(&older, &built_in_shop()).unwrap(), BUILT_IN_SHOP_TEXT);
    }

    #[test]
    fn awkward_texts_are_read_back_or_given_up() {
        let shop = knowing(&built_in_shop(), 0.02);
        let plain = write_shop(&shop);
        let awkward = [
            plain.replace("springback:", "/* springback: [ */ springback /*)*/ :"),
            plain.replace("springback:", "// springback: (\n springback:"),
            plain.replacen("name: \"", "name: \"springback: [)\\\"", 1),
            plain.trim_end().trim_end_matches(')').trim_end().trim_end_matches(',').to_owned() + " // the end\n)",
        ];
        for text in awkward {
            let before = read_shop(&text, "a").unwrap();
            let after = knowing(&before, 0.05);
            if let Some(text) = with_springback(&text, &after) {
                let back = read_shop(&text, "a");
                assert!(back.is_err() || back == Ok(after), "{text}");
            }
        }
        for text in ["", "(", "(name: \"", "()", ")"] {
            assert_eq!(with_springback(text, &shop), None, "{text}");
        }
    }
}
