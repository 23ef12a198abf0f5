//! The program as a sheet by which a person sets the machine.

use elbowroom_bending::plan::Plan;
use elbowroom_bending::program_sheet::{NOTHING_BENT, ProgramSheet, SheetStep};
use elbowroom_bending::setup::{Setup, UNSURE_LEGEND, UNSURE_MARK};
use elbowroom_bending::text::capital;

use super::super::table::lined_up;
use super::super::text::{TextContext, subject, told};

/// The program as text, lengths in the unit that the part shows, angles in degrees to a tenth. Unsure figures
/// carry a mark, which the foot of the sheet explains.
pub fn program_to_text(plan: &Plan, setup: &Setup, context: TextContext) -> String {
    let sheet = ProgramSheet::of(plan, context.shop, setup.clone());
    let mut text = String::from("Bend program\n\n");
    text += &subject(&plan.part, context);
    for line in &sheet.head {
        text += &wrapped(&format!("{:<11}", line.name), &line.value);
    }
    text += "\nBlank\n";
    for line in &sheet.blank {
        // The figures stand under one another, units and all.
        text += &format!("{:<44}{:>13}\n", line.name, line.value);
    }
    if !sheet.load.is_empty() {
        text += "\nLoading\n";
        for line in &sheet.load {
            text += &wrapped(&format!("{:<13}", line.name), &line.value);
        }
    }
    if sheet.steps.is_empty() {
        text += &format!("\n{NOTHING_BENT}\n");
    } else {
        text += &format!("\nSteps, {} and degrees\n", plan.part.units.name());
        text += &steps(&sheet);
        text += &wrapped("", &sheet.explained);
        for step in &sheet.steps {
            for watch in &step.watch {
                let word =
                    watch.severity.map_or_else(String::new, |severity| format!("{}: ", capital(severity.word())));
                text += &wrapped(&format!("At step {:<3}", step.number), &format!("{word}{}", watch.text));
            }
        }
        text += "\nSpringback\n";
        for line in &sheet.springback {
            text += &wrapped(
                &format!("{}{}: ", mark(line.unsure), line.name),
                &format!("{} ({})", line.value, line.source),
            );
        }
        text += &sheet.advice.map_or_else(String::new, |advice| wrapped("", advice));
    }
    text += &format!("\nVerdict\n{}\n", sheet.verdict.text);
    if let Some(words) = &sheet.used_up {
        text += &format!("Stop: {words}\n");
    }
    for words in &sheet.beyond_machine {
        text += &format!("Stop: {words}\n");
    }
    for (index, finding) in sheet.findings.iter().enumerate() {
        text += &told(index + 1, finding, plan.part.units);
    }
    text += "\nSetup\n";
    for item in &sheet.setup {
        text +=
            &wrapped(&format!("{}{:<18}", mark(item.unsure), item.what), &format!("{} ({})", item.value, item.source));
    }
    text += "\nCautions\n";
    for caution in &sheet.cautions {
        text += &wrapped(" - ", &format!("{} ({})", caution.text, caution.source));
    }
    if sheet.unsure() {
        text += &format!("\n{UNSURE_LEGEND}\n");
    }
    text
}

/// What stands at the head of a line.
const fn mark(unsure: bool) -> &'static str {
    if unsure { UNSURE_MARK } else { " " }
}

fn steps(sheet: &ProgramSheet) -> String {
    let head = [
        "Step",
        "Bend",
        "Feed",
        "Rotation",
        "Dial",
        "Set angle",
        "Free angle",
        "Die CLR",
        "Free CLR",
        "Take-up",
        "Mark",
        "Clamp",
        "Clamp from",
        "Die",
    ];
    let row = |step: &SheetStep| {
        vec![
            step.number.to_string(),
            step.bend.map_or_else(String::new, |bend| (bend + 1).to_string()),
            step.feed.clone(),
            step.rotation.clone(),
            step.dial.clone(),
            step.set.clone(),
            step.free.clone(),
            step.die_clr.clone(),
            step.free_clr.clone(),
            step.take_up.clone(),
            step.mark.clone(),
            step.clamp.clone(),
            step.clamp_from.clone(),
            step.die.clone(),
        ]
    };
    lined_up(&head, &sheet.steps.iter().map(row).collect::<Vec<_>>())
}

/// A line broken at spaces under a hanging head, so that it fits a sheet of paper.
fn wrapped(head: &str, text: &str) -> String {
    const WIDTH: usize = 112;
    let indent = head.chars().count();
    let mut out = head.to_owned();
    let mut column = indent;
    for (index, word) in text.split_whitespace().enumerate() {
        let length = word.chars().count();
        if index > 0 && column + 1 + length > WIDTH {
            out.push('\n');
            out.extend(std::iter::repeat_n(' ', indent));
            column = indent;
        } else if index > 0 {
            out.push(' ');
            column += 1;
        }
        out += word;
        column += length;
    }
    out.push('\n');
    out
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use elbowroom_bending::plan::plan;
    use elbowroom_bending::{End, Hand, Shop, specimen};

    fn sheet(shop: &Shop, from: End, hand: Hand) -> String {
        let rows = vec![specimen::row(300.0, 0.0, 90.0), specimen::row(160.0, -40.0, 45.0)];
        let plan = plan(&specimen::bent(&specimen::part(rows, 400.0).unwrap(), from, hand), shop).unwrap();
        program_to_text(&plan, &Setup::of(&plan, shop), TextContext { shop, shop_from: "test" })
    }

    #[test]
    fn the_sheet_says_all_that_sets_the_machine() {
        let text = sheet(&specimen::shop(), End::Finish, Hand::Left);
        for words in [
            "the finish of the drawing, its last bend first",
            "the machine bends to the left",
            "clockwise seen from the chuck looking to the die",
            "Blank length",
            "Set angle",
            "Mandrel nose",
            "Weld seam",
            "power presses",
            "hexavalent chromium",
            "carbon monoxide",
            UNSURE_LEGEND,
        ] {
            assert!(text.contains(words), "{words}:\n{text}");
        }
        assert!(text.lines().all(|line| line.chars().count() <= 160), "{text}");
    }

    #[test]
    fn everything_on_the_sheet_is_on_paper() {
        let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let shop = specimen::shop();
        let rows = vec![specimen::row(100.0, 0.0, 90.0), specimen::row(60.0, -40.0, 45.0)];
        let plan =
            plan(&specimen::bent(&specimen::part(rows, 400.0).unwrap(), End::Finish, Hand::Right), &shop).unwrap();
        let text =
            one_line(&program_to_text(&plan, &Setup::of(&plan, &shop), TextContext { shop: &shop, shop_from: "test" }));
        let sheet = ProgramSheet::of(&plan, &shop, Setup::of(&plan, &shop));
        let mut words = vec![sheet.verdict.text.clone(), sheet.explained.clone()];
        words.extend(sheet.steps.iter().flat_map(|step| step.watch.iter().map(|watch| watch.text.clone())));
        for line in sheet.head.iter().chain(&sheet.blank).chain(&sheet.load).chain(&sheet.springback) {
            words.extend([line.name.clone(), line.value.clone(), line.source.clone()]);
        }
        words.extend(sheet.findings.iter().map(|finding| finding.text.clone()));
        words.extend(
            sheet.setup.iter().flat_map(|item| [item.what.to_owned(), item.value.clone(), item.source.clone()]),
        );
        words.extend(sheet.cautions.iter().flat_map(|caution| [caution.text.clone(), caution.source.to_owned()]));
        assert!(words.len() > 60 && !sheet.findings.is_empty(), "{words:?}");
        for words in words {
            assert!(text.contains(&one_line(&words)), "{words}:\n{text}");
        }
    }

    #[test]
    fn the_mark_goes_when_the_shop_has_measured() {
        let mut shop = specimen::shop();
        let unsure = |text: &str| {
            text.lines().skip_while(|line| !line.starts_with("Step ")).nth(1).unwrap().contains(UNSURE_MARK)
        };
        assert!(unsure(&sheet(&shop, End::Start, Hand::Right)));
        let own = specimen::own_line(&shop.die_sets[0], 1.0, 0.02);
        shop.springback.push(own);
        assert!(!unsure(&sheet(&shop, End::Start, Hand::Right)));
    }

    #[test]
    fn long_lines_hang_under_their_head() {
        let text = wrapped("Head  ", &"word ".repeat(40));
        let lines: Vec<&str> = text.lines().collect();
        assert!(lines.len() == 2 && lines[1].starts_with("      word"), "{text}");
    }
}
