//! The program as a sheet by which a person sets the machine.

use elbowroom_bending::plan::Plan;
use elbowroom_bending::program::ROTATION_SENSE;
use elbowroom_bending::setup::{Setup, TRIAL_ADVICE, UNSURE_LEGEND, UNSURE_MARK};
use elbowroom_bending::{End, Hand};
use elbowroom_geometry::Length;

use super::super::table::{lined_up, tenth};
use super::super::text::{TextContext, subject, told};

/// The program as text, lengths in the unit that the part shows, angles in degrees to a tenth. Unsure figures carry a mark,
/// which the foot of the sheet explains.
pub fn program_to_text(plan: &Plan, setup: &Setup, context: TextContext) -> String {
    let mut text = String::from("Bend program\n\n");
    text += &subject(&plan.part, context);
    text += &how_to_read(plan);
    text += "\nBlank\n";
    text += &blank(plan);
    if plan.program.steps.is_empty() {
        text += "\nNothing is bent: cut the blank and it is done.\n";
    } else {
        text += &format!("\nSteps, {} and degrees\n", plan.part.units.name());
        text += &steps(plan);
        text += "\nSpringback\n";
        text += &springback(plan);
    }
    text += "\nVerdict\n";
    text += &verdict(plan);
    text += "\nSetup\n";
    for item in &setup.items {
        let mark = if item.unsure { UNSURE_MARK } else { " " };
        text += &wrapped(&format!("{mark}{:<18}", item.what), &format!("{} ({})", item.value, item.source));
    }
    text += "\nCautions\n";
    for caution in &setup.cautions {
        text += &wrapped(" - ", &format!("{} ({})", caution.text, caution.source));
    }
    if plan.theory_only() || setup.unsure() {
        text += &format!("\n{UNSURE_LEGEND}\n");
    }
    text
}

/// From which end, to which side, and what the columns mean.
fn how_to_read(plan: &Plan) -> String {
    let (end, other) = match plan.from {
        End::Lead => ("start", "its first bend"),
        End::Tail => ("finish", "its last bend"),
    };
    let side = match plan.hand {
        Hand::Right => "right",
        Hand::Left => "left",
    };
    format!(
        "Bent from  the {end} of the drawing, {other} first\nHand       the machine bends to the {side}\nRotation   \
         positive is {ROTATION_SENSE}\n"
    )
}

fn blank(plan: &Plan) -> String {
    let (program, unit) = (&plan.program, plan.part.units);
    let mark = if plan.theory_only() { UNSURE_MARK } else { "" };
    let lines = [
        ("Blank length", mark, program.blank),
        ("Lead trim", "", program.lead_trim),
        ("Tail trim", "", program.tail_trim),
        ("Left behind the last bend, without the trim", mark, program.tail),
    ];
    lines
        .iter()
        .map(|(name, mark, length)| {
            format!("{name:<44}{:>10} {}\n", format!("{mark}{}", unit.bare(length.mm())), unit.symbol())
        })
        .collect()
}

fn steps(plan: &Plan) -> String {
    let unit = plan.part.units;
    let head = [
        "Step",
        "Bend",
        "Feed",
        "Rotation",
        "Set angle",
        "Free angle",
        "Die CLR",
        "Free CLR",
        "Take-up",
        "Mark",
        "Clamp",
        "Die",
    ];
    let row = |(index, step): (usize, &elbowroom_bending::program::Step)| {
        let unsure = plan.springback_of_step[index].unsure();
        let mark = if unsure { UNSURE_MARK } else { "" };
        let marked = |length: Length| format!("{mark}{}", unit.bare(length.mm()));
        vec![
            (index + 1).to_string(),
            plan.drawn_bend(index).map_or_else(String::new, |bend| (bend + 1).to_string()),
            marked(step.feed),
            signed(step.rotation.degrees()),
            format!("{mark}{}", tenth(step.set_angle.degrees())),
            tenth(step.free_angle.degrees()),
            unit.bare(step.forming.die_clr.mm()).to_string(),
            marked(step.free_clr),
            marked(step.take_up),
            marked(step.mark),
            unit.bare(step.forming.clamp.mm()).to_string(),
            plan.die_of_step[index].clone(),
        ]
    };
    let rows: Vec<Vec<String>> = plan.program.steps.iter().enumerate().map(row).collect();
    let mut text = lined_up(&head, &rows);
    text += &wrapped(
        "",
        &format!(
            "Rotation is positive {ROTATION_SENSE}. Feed is the carriage's travel before the bend; that of step 1 includes the \
             lead trim. Mark is where the bend starts, measured along the blank from the end that is bent first, for a \
             machine fed by hand. Bend is the number of the bend as drawn."
        ),
    );
    text
}

/// A figure to a tenth, its sign always shown.
fn signed(value: f64) -> String {
    let text = tenth(value);
    if text.starts_with('-') || text == "0.0" { text } else { format!("+{text}") }
}

/// One line a die set: the springback line and where it comes from.
fn springback(plan: &Plan) -> String {
    let mut text = String::new();
    let mut told: Vec<&str> = Vec::new();
    for (die, known) in plan.die_of_step.iter().zip(&plan.springback_of_step) {
        if told.contains(&die.as_str()) {
            continue;
        }
        told.push(die);
        let mark = if known.unsure() { UNSURE_MARK } else { " " };
        let from = match known.basis.word() {
            "theory" if known.material_unknown => "no figures for this material, so none is assumed",
            "theory" => "by theory",
            "trials" => "from this shop's trial bends",
            _ => "as this shop has it",
        };
        let stretch = if known.stretch_measured {
            format!("; takes {:.2} % less blank, measured", known.stretch * 100.0)
        } else {
            "; stretch not measured, so the blank is a little long".into()
        };
        text += &format!(
            "{mark}{die}: {:.2}° + {:.4} per degree set, {from}{stretch}\n",
            known.line.a.degrees(),
            known.line.b
        );
        if let Some(refused) = &known.refused {
            text += &format!("  The trial bends could not be used: {refused}\n");
        }
    }
    if plan.theory_only() {
        text += &wrapped("", TRIAL_ADVICE);
    }
    text
}

fn verdict(plan: &Plan) -> String {
    let mut text = String::new();
    text += &format!("{}\n", plan.solved.verdict.text);
    if let Some(words) = used_up_in_words(plan) {
        text += &format!("Stop: {words}\n");
    }
    for (index, finding) in plan.findings().iter().enumerate() {
        text += &told(index + 1, finding, plan.part.units);
    }
    text
}

/// What is to be said where springback uses up a straight.
pub fn used_up_in_words(plan: &Plan) -> Option<String> {
    let (step, missing) = plan.used_up()?;
    let unit = plan.part.units;
    let place = match plan.drawn_bend(step) {
        Some(bend) => format!("the straight before step {} (bend {})", step + 1, bend + 1),
        None => "the tail".into(),
    };
    Some(format!(
        "released bends open to a larger radius and use up {place}: {} are missing, so the program cannot be run; lengthen it.",
        unit.shown(unit.at_least_mm(missing.mm()).max(unit.at_least_mm(0.01)))
    ))
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
    use elbowroom_bending::{Shop, specimen};

    fn sheet(shop: &Shop, from: End, hand: Hand) -> String {
        let rows = vec![specimen::row(300.0, 0.0, 90.0), specimen::row(160.0, -40.0, 45.0)];
        let plan = plan(&specimen::part(rows, 400.0).unwrap(), shop, from, hand).unwrap();
        program_to_text(&plan, &Setup::of(&plan, shop), TextContext { shop, shop_from: "test" })
    }

    #[test]
    fn the_sheet_says_all_that_sets_the_machine() {
        let text = sheet(&specimen::shop(), End::Tail, Hand::Left);
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
    fn the_mark_goes_when_the_shop_has_measured() {
        let mut shop = specimen::shop();
        let unsure = |text: &str| {
            text.lines().skip_while(|line| !line.starts_with("Step ")).nth(1).unwrap().contains(UNSURE_MARK)
        };
        assert!(unsure(&sheet(&shop, End::Lead, Hand::Right)));
        shop.springback.push(elbowroom_bending::forming::process::SpringbackRecord {
            die: shop.die_sets[0].name.clone(),
            material: "304 stainless".into(),
            trials: Vec::new(),
            line: Some(elbowroom_bending::forming::springback::SpringbackLine {
                a: elbowroom_geometry::Angle::from_degrees(1.0),
                b: 0.02,
            }),
            stretch: None,
        });
        assert!(!unsure(&sheet(&shop, End::Lead, Hand::Right)));
    }

    #[test]
    fn long_lines_hang_under_their_head() {
        let text = wrapped("Head  ", &"word ".repeat(40));
        let lines: Vec<&str> = text.lines().collect();
        assert!(lines.len() == 2 && lines[1].starts_with("      word"), "{text}");
    }
}
