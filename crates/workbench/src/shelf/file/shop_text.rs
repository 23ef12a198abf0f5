//! Puts the changes of a shop into the text of its file, so that the comments round them stay.

use elbowroom_bending::Shop;

use super::kinds;
use super::reading::{read_shop, write_shop};
use super::woven::{with_field, woven};

/// The text of a shop file, changed so that it holds `shop`, in today's version: whatever stays the same stays as somebody
/// has written it. `None` where the text is not written as shop files are.
pub(crate) fn with_shop(text: &str, shop: &Shop) -> Option<String> {
    let was = read_shop(text, "").ok()?;
    let text = with_field(text, "format", &format!("\"{}\"", kinds::SHOP.newest()))?;
    woven(&text, &write_shop(&was), &write_shop(shop)).filter(|text| read_shop(text, "").as_ref() == Ok(shop))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::forming::process::LimitFigures;
    use elbowroom_bending::{
        Basis, ClampFigures, DieSetFigures, Guard, Knowledge, KnowledgeEdit, MachineFigures, ProvedOn, RotationSetting,
        ShopEdit,
    };
    use elbowroom_geometry::{Angle, Length};
    use proptest::prelude::*;

    use super::*;
    use crate::shelf::file::{BUILT_IN_SHOP_TEXT, built_in_shop};

    fn knowing(shop: &Shop, stretch: f64) -> Shop {
        let die = shop.die_sets[0].name.clone();
        let what = Knowledge::Stretch(Some(stretch));
        KnowledgeEdit { die, material: "304 stainless".into(), what }.applied_to(shop).unwrap()
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
            text = with_shop(&text, &shop).unwrap();
            assert_eq!(read_shop(&text, "a").unwrap(), shop);
            assert_eq!(comments(&text), comments(BUILT_IN_SHOP_TEXT));
        }
        text = with_shop(&text, &built_in_shop()).unwrap();
        assert_eq!(read_shop(&text, "a").unwrap(), built_in_shop());
    }

    /// The built-in shop as it was before rotations were asked for, in an older version.
    fn older(version: u32) -> String {
        let text = BUILT_IN_SHOP_TEXT.replacen("elbowroom-shop/3", &format!("elbowroom-shop/{version}"), 1);
        text.lines()
            .filter(|line| !line.trim_start().starts_with("rotation:"))
            .map(|line| format!("{line}\n"))
            .collect()
    }

    #[test]
    fn an_older_file_becomes_one_of_today() {
        for version in [1, 2] {
            let older = older(version);
            assert_eq!(read_shop(&older, "a").unwrap(), built_in_shop());
            let shop = knowing(&built_in_shop(), 0.02);
            let text = with_shop(&older, &shop).unwrap();
            assert!(text.contains("format: \"elbowroom-shop/3\""), "{text}");
            assert_eq!((read_shop(&text, "a").unwrap(), comments(&text)), (shop, comments(&older)));
            // The version alone, where nothing has changed.
            let raised = older.replacen(&format!("elbowroom-shop/{version}"), "elbowroom-shop/3", 1);
            assert_eq!(with_shop(&older, &built_in_shop()).unwrap(), raised);
        }
    }

    /// What differs between two texts, line by line: those that went and those that came.
    fn other_lines(before: &str, after: &str) -> (Vec<String>, Vec<String>) {
        let lines = |text: &str, of: &str| {
            let there: Vec<&str> = of.lines().collect();
            text.lines().filter(|line| !there.contains(line)).map(|line| line.trim().to_owned()).collect()
        };
        (lines(before, after), lines(after, before))
    }

    #[test]
    fn a_change_touches_the_line_that_it_is_about_and_no_other() {
        let shop = built_in_shop();
        let machine = MachineFigures {
            longest_blank: Length::from_mm(3200.0),
            rotation: RotationSetting::Reading,
            ..shop.machine.clone().into_figures()
        };
        let shop = ShopEdit::SetMachine(machine).applied_to(&shop).unwrap();
        let mut text = with_shop(BUILT_IN_SHOP_TEXT, &shop).unwrap();
        let went = ["longest_blank_mm: 4000.0,", "rotation: turn,"].map(str::to_owned).to_vec();
        let came = ["longest_blank_mm: 3200.0,", "rotation: reading,"].map(str::to_owned).to_vec();
        assert_eq!(other_lines(BUILT_IN_SHOP_TEXT, &text), (went, came));
        // A clamp in the midst of the others, what another has proved, and one taken out.
        let name = shop.die_sets[8].name.clone();
        let figures = |proved: f64, length: f64| ClampFigures {
            length: Length::from_mm(length),
            proved_angle: Angle::from_degrees(proved),
            basis: Basis::Shop,
            proved_on: Some(ProvedOn { wall: Length::from_mm(1.5), material: "304 stainless".into() }),
        };
        let to = shop.die_sets[8]
            .with(|die| {
                die.clamps[1] = figures(110.0, 80.0).sound().unwrap();
                die.clamps[2] = figures(95.0, 70.0).sound().unwrap();
            })
            .unwrap()
            .into_figures();
        let shop = ShopEdit::ChangeDie { name, to }.applied_to(&shop).unwrap();
        let before = text.clone();
        text = with_shop(&text, &shop).unwrap();
        assert_eq!(text.lines().count(), before.lines().count(), "one came and one went");
        assert_eq!(comments(&text), comments(BUILT_IN_SHOP_TEXT));
        let (_, came) = other_lines(&before, &text);
        assert_eq!(came.len(), 2, "{came:?}");
        assert!(came.iter().all(|line| line.contains("proved_on") && line.ends_with("),")), "{came:?}");
    }

    #[test]
    fn what_comes_in_stands_in_a_place_of_its_own_and_what_goes_takes_its_lines_along() {
        let shop = built_in_shop();
        let die = DieSetFigures::usual(Length::from_mm(25.4), Length::from_mm(50.8));
        let with_die = ShopEdit::AddDie(die.clone()).applied_to(&shop).unwrap();
        let text = with_shop(BUILT_IN_SHOP_TEXT, &with_die).unwrap();
        assert!(text.contains("\n        (\n            name: \"25.4 on 50.8\","), "{text}");
        assert_eq!(comments(&text), comments(BUILT_IN_SHOP_TEXT));
        let without = ShopEdit::RemoveDies(vec![die.name]).applied_to(&with_die).unwrap();
        assert_eq!(with_shop(&text, &without).unwrap(), BUILT_IN_SHOP_TEXT, "back to the letter");
        // All of them, and one put in where none is.
        let none = ShopEdit::RemoveDies(shop.die_sets.iter().map(|die| die.name.clone()).collect());
        let none = none.applied_to(&shop).unwrap();
        let text = with_shop(BUILT_IN_SHOP_TEXT, &none).unwrap();
        assert_eq!(comments(&text), comments(BUILT_IN_SHOP_TEXT));
        let one = ShopEdit::AddDie(DieSetFigures::usual(Length::from_mm(25.4), Length::from_mm(50.8)));
        let one = one.applied_to(&none).unwrap();
        let text = with_shop(&text, &one).unwrap();
        assert_eq!((read_shop(&text, "a").unwrap(), comments(&text)), (one, comments(BUILT_IN_SHOP_TEXT)));
        let tube = ShopEdit::RemoveTube(shop.tubes[3].clone()).applied_to(&shop).unwrap();
        let text = with_shop(BUILT_IN_SHOP_TEXT, &tube).unwrap();
        assert_eq!(text.lines().count() + 1, BUILT_IN_SHOP_TEXT.lines().count());
        assert_eq!(with_shop(&text, &shop).unwrap(), BUILT_IN_SHOP_TEXT, "on a line like the others");
    }

    #[test]
    fn what_stands_behind_a_figure_stays_though_the_figure_changes() {
        let text = BUILT_IN_SHOP_TEXT
            .replacen("tail_hold_mm: 150.0,", "tail_hold_mm: 150, // with the short mandrel", 1)
            .replacen("clr_mm: 57.15,", "clr_mm: /* asked twice */ 57.15,", 1);
        let shop = built_in_shop();
        let machine = shop.machine.with(|machine| machine.tail_hold = Length::from_mm(140.0)).unwrap();
        let shop = ShopEdit::SetMachine(machine.into_figures()).applied_to(&shop).unwrap();
        let to = DieSetFigures {
            clr: Length::from_mm(57.0),
            name: "small".into(),
            ..shop.die_sets[0].clone().into_figures()
        };
        let shop = ShopEdit::ChangeDie { name: shop.die_sets[0].name.clone(), to }.applied_to(&shop).unwrap();
        let text = with_shop(&text, &shop).unwrap();
        assert!(text.contains("tail_hold_mm: 140.0, // with the short mandrel"), "{text}");
        assert!(text.contains("clr_mm: /* asked twice */ 57.0,") && text.contains("name: \"small\", od_mm"), "{text}");
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
            if let Some(text) = with_shop(&text, &after) {
                let back = read_shop(&text, "a");
                assert!(back.is_err() || back == Ok(after), "{text}");
            }
        }
        for text in ["", "(", "(name: \"", "()", ")"] {
            assert_eq!(with_shop(text, &shop), None, "{text}");
        }
    }

    /// A change of some kind, by five numbers: which, where, and how large.
    fn some_edit(shop: &Shop, (kind, place, size, other, flag): (u8, usize, f64, f64, bool)) -> ShopEdit {
        let mm = |value: f64| Length::from_mm((value * 100.0).round() / 100.0);
        let basis = if flag { Basis::Shop } else { Basis::CommonPractice };
        let die = (!shop.die_sets.is_empty()).then(|| &shop.die_sets[place % shop.die_sets.len()]);
        let of_die = |change: &dyn Fn(&mut DieSetFigures)| match die {
            Some(die) => {
                let mut to = die.clone().into_figures();
                change(&mut to);
                ShopEdit::ChangeDie { name: die.name.clone(), to }
            }
            None => ShopEdit::AddDie(DieSetFigures::usual(mm(size), mm(size * 2.0))),
        };
        let clamp = ClampFigures {
            length: mm(30.0 + size),
            proved_angle: Angle::from_degrees(other.round()),
            basis,
            proved_on: flag.then(|| ProvedOn { wall: mm(1.5), material: "mild \"steel\"".into() }),
        };
        match kind % 9 {
            0 => {
                let machine =
                    shop.machine.with(|machine| (machine.longest_blank, machine.basis) = (mm(size * 50.0), basis));
                ShopEdit::SetMachine(machine.unwrap().into_figures())
            }
            1 => ShopEdit::AddDie(DieSetFigures::usual(mm(size), mm(size + other))),
            2 => ShopEdit::RemoveDies(die.iter().map(|die| die.name.clone()).collect()),
            3 => of_die(&|die| (die.clr, die.basis) = (mm(size * 3.0), basis)),
            4 => of_die(&|die| die.clamps.push(clamp.clone().sound().unwrap())),
            5 => of_die(&|die| drop(die.clamps.remove(place % die.clamps.len()))),
            6 => of_die(&|die| die.name = format!("{} ({other:.0}), \"so\"", die.name)),
            7 if !shop.tubes.is_empty() => ShopEdit::RemoveTube(shop.tubes[place % shop.tubes.len()].clone()),
            _ => ShopEdit::SetLimits(LimitFigures {
                least_wall: 0.5 + other / 400.0,
                basis,
                ..shop.limits.into_figures()
            }),
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]
        /// Whatever is changed, one after another: what is written reads back, and no comment is lost.
        #[test]
        fn any_changes_keep_every_comment(
            edits in prop::collection::vec((0_u8..9, 0_usize..40, 20.0..100.0, 10.0..170.0, any::<bool>()), 1..12)
        ) {
            let (mut shop, mut text) = (built_in_shop(), BUILT_IN_SHOP_TEXT.to_owned());
            for edit in edits {
                let Ok(changed) = some_edit(&shop, edit).applied_to(&shop) else { continue };
                let written = with_shop(&text, &changed);
                prop_assert!(written.is_some(), "{edit:?} cannot be written into\n{text}");
                (shop, text) = (changed, written.unwrap_or_default());
                prop_assert_eq!(comments(&text), comments(BUILT_IN_SHOP_TEXT));
            }
        }
    }
}
