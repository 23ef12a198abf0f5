//! A figure of one name is one figure, wherever it is read: on every demo part the verdict, the cards, the strip, the sheet of
//! the program and the drawing of the clamp are held against one another.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_bending::{End, ToldCure};
use elbowroom_panels::{findings, program, strip, verdict, why};
use elbowroom_workbench::file::{built_in_shop, demo_parts};
use elbowroom_workbench::{Command, SelectMode, Target, Workbench};

/// Every demo part on the bench, bent from either end.
fn benches() -> Vec<(String, Workbench)> {
    let both = demo_parts().flat_map(|demo| {
        [End::Start, End::Finish].map(|from| {
            let mut part = demo.read().unwrap();
            part.tooling.from = from;
            (format!("{} from the {from:?}", demo.name), Workbench::new(part, built_in_shop()))
        })
    });
    both.collect()
}

/// The words before a phrase that are a figure with its unit, such as `60.4 mm`, without the mark.
fn before(text: &str, phrase: &str) -> Option<String> {
    let (head, _) = text.split_once(phrase)?;
    let mut words: Vec<&str> = head.split_whitespace().rev().take(2).collect();
    words.reverse();
    Some(words.join(" ").replace('~', ""))
}

#[test]
fn a_trim_is_one_figure_in_verdict_card_cure_strip_and_program() {
    let mut seen = 0;
    for (name, bench) in benches() {
        let Some(Ok(sheet)) = program::Model::of(&bench).sheet else { continue };
        let strip = strip::sentence(&strip::Model::of(&bench));
        let cards = findings::Model::of(&bench).items;
        for end in ["start", "finish"] {
            let line = sheet.said.blank.iter().find(|line| line.name == format!("Trim at the {end}")).unwrap();
            let trim = line.value.replace('~', "");
            let Some(on_strip) = before(&strip, &format!(" to cut off the {end}")) else {
                assert_eq!(trim.trim_start_matches("0.000 in").trim_start_matches("0.0 mm"), "", "{name}: {strip}");
                continue;
            };
            assert_eq!(on_strip, trim, "{name}, {end}: {strip}");
            let said = verdict::Model::of(&bench).text;
            if said.contains(" of extra stock to trim") && said.contains(&format!("at the {end}")) {
                assert!(said.replace('~', "").contains(&trim), "{name}, {end}: {trim} in {said}");
            }
            let cures = |cures: &[ToldCure]| -> Vec<String> {
                let at_end = cures.iter().filter(|cure| cure.label.contains("of extra stock on the"));
                at_end.filter(|cure| cure.label.ends_with(end)).map(|cure| cure.label.clone()).collect()
            };
            for card in &cards {
                for label in cures(&card.cures) {
                    let put_on = before(&label, " of extra stock").unwrap();
                    let found = before(&card.text, " of extra stock, cut off").unwrap();
                    assert_eq!(put_on, found, "{name}, {end}: {}", card.text);
                    seen += 1;
                }
            }
        }
    }
    assert!(seen > 4, "only {seen} cures were held against their cards");
}

#[test]
fn the_straight_that_leaves_no_mark_is_one_figure_in_cure_and_drawing() {
    let mut seen = 0;
    for (name, mut bench) in benches() {
        for (index, finding) in bench.solved().findings.clone().iter().enumerate() {
            let Some(bend) = finding.place.bend.filter(|_| finding.is_of_clamp()) else { continue };
            let told = findings::Model::of(&bench).items[index].clone();
            let lengthen = |cure: &&ToldCure| cure.label.starts_with("Lengthen the straight to ");
            let Some(cure) = told.cures.iter().find(lengthen) else { continue };
            let wanted = cure.label.trim_start_matches("Lengthen the straight to ").to_owned();
            bench.perform(Command::Select(bench.named(Target::Bend(bend)), SelectMode::Only));
            let drawing = why::Model::of(&bench).to_string().replace('~', "");
            if drawing.contains("or more leaves no mark") {
                assert!(drawing.contains(&format!("a straight of {wanted} or more")), "{name}: {wanted}\n{drawing}");
                seen += 1;
            }
        }
    }
    assert!(seen > 1, "only {seen} cures were held against the drawing");
}

#[test]
fn the_verdict_speaks_of_the_first_card() {
    for (name, bench) in benches() {
        let solved = bench.solved();
        let Some(first) = solved.findings.first() else { continue };
        let said = verdict::Model::of(&bench).text;
        let stock = said.starts_with("Bends as drawn, with ");
        assert!(stock || said == first.verdict(&bench.words()), "{name}: {said}");
    }
}

#[test]
fn the_straight_that_the_clamp_needs_is_one_figure_in_the_sentence_and_below_it() {
    let mut seen = 0;
    for (name, bench) in benches() {
        for card in findings::Model::of(&bench).items.iter().filter(|card| card.fault == "straight-too-short") {
            let (_, limit) = card.figures.split_once("limit ").unwrap();
            assert!(card.text.contains(&format!("needs {limit}")), "{name}: {} / {}", card.text, card.figures);
            seen += 1;
        }
    }
    assert!(seen > 1, "only {seen} cards were read");
}
