//! The comparison as a person reads it: the table of tooling, best first, then what the drawing would have to
//! be on the tooling that is chosen.

use elbowroom_bending::compare::{COMPOUND_CUT_ADVICE, Comparison, Tooling};
use elbowroom_bending::requirements::{AngleBefore, Requirement, Requirements};
use elbowroom_bending::setup::{UNSURE_LEGEND, UNSURE_MARK};
use elbowroom_bending::{Basis, Part, Severity};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;

use super::super::formed_text::{marked, marked_if};
use super::super::program::from_word;
use super::super::table::{lined_up, tenth};
use super::super::text::{CAUTION, COMMON_PRACTICE, TextContext, shop_rests_on_common_practice, subject};

/// The comparison as text, lengths in the unit that the part shows, angles in degrees to a tenth.
pub fn compare_to_text(
    part: &Part,
    comparison: &Comparison,
    requirements: &Requirements,
    context: TextContext,
) -> String {
    let mut text = String::from("Which tooling makes it\n\n");
    text += &subject(part, context);
    let unit = part.units;
    text += &format!("\nTooling, best first, {}\n", unit.name());
    if comparison.rows.is_empty() {
        text += &format!("The shop has no die set with a clamp for {} tube.\n", unit.shown(part.tube.od.mm()));
    } else {
        text += &tooling(&comparison.rows, unit);
    }
    if comparison.only_compound_cut {
        text += &format!("\n{COMPOUND_CUT_ADVICE}\n");
    }
    if !comparison.other_diameters.is_empty() {
        text += &format!("\nFor other diameters: {}\n", comparison.other_diameters.join(", "));
    }
    let (from, units) = (from_word(requirements.from), unit.name());
    text += &format!(
        "\nWhat the drawing would have to be on the chosen tooling, bent from the {from}, {units} and degrees\n"
    );
    text += &required(requirements, unit);
    if text.contains(UNSURE_MARK) {
        text += &format!("\n{UNSURE_LEGEND}\n");
    }
    if shop_rests_on_common_practice(context.shop, part.tube.od) {
        text += &format!("\n{COMMON_PRACTICE}");
    } else {
        text.push('\n');
    }
    text += CAUTION;
    text
}

fn tooling(rows: &[Tooling], unit: LengthUnit) -> String {
    let length = |length_mm: f64| unit.bare(length_mm).to_string();
    let head = ["Die set", "Clamp", "Bent from", "Verdict", "Worst finding", "Trim at start", "Trim at finish", "CLR"];
    let row = |row: &Tooling| {
        let verdict = match row.verdict.severity {
            None => "bends as drawn",
            Some(Severity::Note) => "note",
            Some(Severity::Caution) => "caution",
            Some(Severity::Stop) => "stop",
        };
        let worst = row.worst.as_ref().map_or_else(|| "-".to_owned(), |finding| finding.called());
        let clr =
            row.changed_clr.map_or_else(|| "as drawn".into(), |clr: Length| format!("all to {}", length(clr.mm())));
        // In the order of the drawing.
        let trims = row.from.first_before([
            marked_if(row.trim_bases[0]) + &length(row.lead_trim_mm),
            marked_if(row.trim_bases[1]) + &length(row.tail_trim_mm),
        ]);
        vec![
            row.die(),
            row.clamp_text(unit),
            from_word(row.from).into(),
            verdict.into(),
            worst,
            trims[0].clone(),
            trims[1].clone(),
            clr,
        ]
    };
    lined_up(&head, &rows.iter().map(row).collect::<Vec<_>>())
}

fn turn(before: Option<usize>, limit: AngleBefore, basis: Basis) -> String {
    match (before, limit) {
        (None, _) => "-".into(),
        (_, AngleBefore::Any) => "any".into(),
        // Downwards: what is shown must pass.
        (_, AngleBefore::UpTo(angle)) => marked(basis) + &tenth((angle.degrees() * 10.0).floor() / 10.0),
        (_, AngleBefore::Never) => "none".into(),
    }
}

fn required(requirements: &Requirements, unit: LengthUnit) -> String {
    let at_least = |length_mm: f64| unit.bare(unit.at_least_mm(length_mm)).to_string();
    let mut text = String::new();
    if !requirements.bends.is_empty() {
        let head = [
            "Bend",
            "Straight",
            "Closes from",
            "Mark-free from",
            "Bend before",
            "Closes to",
            "Mark-free to",
            "Angle",
            "Grip proved to",
            "Die and machine to",
        ];
        let row = |one: &Requirement| {
            let needs = |length_mm: f64| marked(one.bite_basis) + &at_least(length_mm);
            vec![
                (one.bend + 1).to_string(),
                unit.bare(one.straight_mm).to_string(),
                // On the leg that leads the clamp's own length is what it needs.
                one.before.map_or_else(|| at_least(one.closes_from_mm), |_| needs(one.closes_from_mm)),
                one.before.map_or_else(|| "-".to_owned(), |_| needs(one.mark_free_from_mm)),
                one.before.map_or_else(|| "-".to_owned(), |bend| (bend + 1).to_string()),
                turn(one.before, one.before_closes, one.bite_basis),
                turn(one.before, one.before_mark_free, one.bite_basis),
                tenth(one.angle.degrees()),
                marked(one.held_basis) + &tenth(one.held.degrees()),
                marked(one.largest_basis) + &tenth(one.largest.degrees()),
            ]
        };
        text += &lined_up(&head, &requirements.bends.iter().map(row).collect::<Vec<_>>());
        text += "Bends are numbered as drawn and stand in the order of bending. Straight: the one the clamp lies on, towards the\n\
                 bend before; it closes, and leaves no mark, from the lengths beside it on. Bend before: the one made before\n\
                 it, and how far that may turn for the clamp to close and to leave no mark on the present straight. Grip: the\n\
                 angle that the stretch now gripped has proved to hold.\n";
    }
    for bend in &requirements.without_die {
        text += &format!("Bend {}: the shop has no die set for its radius.\n", bend + 1);
    }
    let radii: Vec<String> =
        requirements.radii.iter().map(|radius| format!("{} ({})", unit.bare(radius.clr.mm()), radius.die)).collect();
    if !radii.is_empty() {
        text += &format!("CLR that the shop has dies for: {}\n", radii.join(", "));
    }
    text
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use elbowroom_bending::compare::compare;
    use elbowroom_bending::requirements::requirements;
    use elbowroom_bending::{End, Hand, solve, specimen};

    fn text(rows: Vec<elbowroom_geometry::BendRow>, from: End) -> String {
        let (part, shop) = (specimen::part(rows, 400.0).unwrap(), specimen::shop());
        let part = specimen::bent(&part, from, Hand::Right);
        let required = requirements(&part, &shop, &solve(&part, &shop));
        compare_to_text(&part, &compare(&part, &shop), &required, TextContext { shop: &shop, shop_from: "test" })
    }

    #[test]
    fn every_tooling_has_a_line_and_every_bend_its_needs() {
        let text = text(vec![specimen::row(300.0, 0.0, 90.0), specimen::row(115.0, 40.0, 60.0)], End::Start);
        assert_eq!(text.lines().filter(|line| line.starts_with("50.8 at ")).count(), 2 * 3 * 2, "{text}");
        // 107.6 mm closes and 118.3 mm leaves no mark: R(1 - cos(s/R)) of 2 mm at 17.5 mm, of 0.3 mm at 6.8 mm.
        let line = text.lines().find(|line| line.starts_with("2 ")).unwrap();
        assert!(line.contains("107.6") && line.contains("118.3"), "{line}");
        assert!(text.contains("CLR that the shop has dies for: 76.2 (50.8 at 1.5D), 101.6 (50.8 at 2D)"), "{text}");
        assert!(!text.contains("compound-cut"));
    }

    #[test]
    fn from_the_finish_bends_stand_in_the_order_of_bending() {
        let text = text(vec![specimen::row(300.0, 0.0, 60.0), specimen::row(115.0, 40.0, 90.0)], End::Finish);
        assert!(text.contains("on the chosen tooling, bent from the finish"), "{text}");
        let lines: Vec<Vec<&str>> = text
            .lines()
            .skip_while(|line| !line.contains("Mark-free from"))
            .skip(1)
            .take(2)
            .map(|line| line.split_whitespace().collect())
            .collect();
        // Bend 2 is made first, on the 400 mm leg; the clamp of bend 1 then reaches over bend 2.
        assert_eq!(lines[0][..2], ["2", "400.0"], "{text}");
        assert_eq!(lines[1][..5], ["1", "115.0", "~107.6", "~118.3", "2"], "{text}");
    }

    #[test]
    fn the_last_resort_is_named_where_it_is_one() {
        let text = text(vec![specimen::row(300.0, 0.0, 90.0), specimen::row(3.0, 90.0, 90.0)], End::Start);
        assert!(text.contains("compound-cut") && text.contains("a one-off will rarely pay"), "{text}");
    }
}
