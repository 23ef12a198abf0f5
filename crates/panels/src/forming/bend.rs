//! What bending does to the tube at one bend.

use elbowroom_bending::forming::difficulty::{self, SIMPLE_DIFFICULTY};
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::forming::wall::{WallFigure, pressure_factors};
use elbowroom_bending::forming::{mandrel, ovality};
use elbowroom_bending::{End, Formed, Part, Shop, Solved, SolvedBend};
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length, format_number};
use elbowroom_geometry::{Angle, Length};

use super::group::{Group, Row, percent};

/// The groups of a bend; none where it is not formed.
pub(super) fn groups(part: &Part, shop: &Shop, solved: &Solved, bend: usize) -> Vec<Group> {
    let made = &solved.bends[bend];
    let Some(formed) = &made.formed else { return Vec::new() };
    vec![
        wall(part, shop, formed),
        walls(part, shop, made, formed),
        stretch(part, shop, formed),
        springback(part, solved.from, made, formed),
        tooling(part, shop, made, formed),
        roundness(part, made),
    ]
}

/// A wall or a difference of diameters: a digit more than other lengths.
fn fine(length: Length, unit: LengthUnit) -> String {
    format_length(length, unit, unit.decimals() + 1)
}

fn length(mm: f64, unit: LengthUnit) -> String {
    format_length(Length::from_mm(mm), unit, unit.decimals())
}

fn angle(rad: f64) -> String {
    format_angle(Angle::from_radians(rad), 1)
}

fn walls(part: &Part, shop: &Shop, made: &SolvedBend, formed: &Formed) -> Group {
    let limits = &shop.limits;
    let mut rows = Vec::new();
    for figure in formed.walls() {
        let ground = Ground::from(figure.rule);
        let is_limit = figure.rule == limits.wall_rule;
        let asked = if is_limit {
            format!(
                "; the shop wants {} by this rule, {}",
                percent(limits.least_wall),
                Ground::from(limits.basis).said()
            )
        } else {
            String::new()
        };
        let note = format!("{}{asked}", figure.rule.source());
        let value = wall_text(part, &figure);
        rows.push(Row::new(format!("Outside, {}", figure.rule.name()), value, ground, note.clone()));
        if let Some(inside) = figure.inside {
            let more = percent(inside / part.tube.wall - 1.0);
            let value = format!("{}, {more} more", fine(inside, part.units));
            rows.push(Row::new(format!("Inside, {}", figure.rule.name()), value, ground, note));
        }
    }
    if let Some((inside, outside)) = pressure_factors(part.tube.od, Length::from_mm(made.clr_mm)) {
        let value = format!("{} inside, {} outside", format_number(inside, 2), format_number(outside, 2));
        let note = "ASME B31.3 304.2.1: the wall that inner pressure asks for, against straight tube";
        rows.push(Row::new("Wall for pressure", value, Ground::Published, note));
    }
    let note = format!("Of {} before bending; the percentages are of that.", fine(part.tube.wall, part.units));
    Group { title: "Walls, rule by rule", rows, note, open: false }
}

/// The one figure that a shop goes by, and how far the published rules reach beside it.
fn wall(part: &Part, shop: &Shop, formed: &Formed) -> Group {
    let limits = &shop.limits;
    let figures: Vec<WallFigure> = formed.walls().collect();
    let mm = || figures.iter().map(|figure| figure.outside.mm());
    let (least, most) = (mm().fold(f64::INFINITY, f64::min), mm().fold(0.0, f64::max));
    let by_shop = figures.iter().find(|figure| figure.rule == limits.wall_rule);
    let rows = by_shop.map(|figure| {
        let note = format!("by the rule {}: {}", figure.rule.name(), figure.rule.source());
        let range = format!("{} to {}", part.units.bare_finely(least), fine(Length::from_mm(most), part.units));
        let others = "by all the rules that are known here; they disagree, and none is a measurement";
        [
            Row::new("Outside, left", wall_text(part, figure), Ground::from(figure.rule), note),
            Row::new("It may be", range, Ground::from(figure.rule), others),
        ]
    });
    Group {
        title: "Walls",
        rows: rows.into_iter().flatten().collect(),
        note: format!(
            "Of {} before bending. The shop wants {} left ({}).",
            fine(part.tube.wall, part.units),
            percent(limits.least_wall),
            Ground::from(limits.basis).said()
        ),
        open: true,
    }
}

fn wall_text(part: &Part, figure: &WallFigure) -> String {
    format!("{}, {} less", fine(figure.outside, part.units), percent(figure.thinning))
}

fn stretch(part: &Part, shop: &Shop, formed: &Formed) -> Group {
    let mut rows = vec![Row::new(
        "Outer fibre",
        percent(formed.outer_stretch()),
        Ground::Published,
        "OD/2R, a published shop formula, with the neutral line on the centreline",
    )];
    let known = shop.material(&part.tube.material);
    for figure in known.iter().flat_map(|material| &material.elongation_percent) {
        rows.push(
            Row::new(
                "Stretches until it breaks",
                percent(figure.value / 100.0),
                figure.certainty.into(),
                figure.source.as_str(),
            )
            .noted(),
        );
    }
    let note = match known {
        Some(material) if material.elongation_percent.is_empty() => {
            format!("No elongation is known of {}, so nothing is checked.", material.name)
        }
        Some(_) => String::new(),
        None => format!("The shop does not know {}, so nothing is checked.", part.tube.material),
    };
    Group { title: "Stretch", rows, note, open: true }
}

fn springback(part: &Part, from: End, made: &SolvedBend, formed: &Formed) -> Group {
    let Some(released) = &formed.released else {
        return Group {
            title: "Springback",
            rows: Vec::new(),
            note: "The shop has no die set for this bend, so there is nothing to set.".to_owned(),
            open: true,
        };
    };
    let ground = Ground::from(released.basis);
    let line = released.line;
    let formula = format!("springback = {} + {:.4} × set angle", format_angle(line.a(), 2), line.b());
    let row = |name: &str, value: String| Row::new(name, value, ground, formula.clone());
    let opens = released.set_angle_rad - released.free_angle_rad;
    let rows = vec![
        row("Set angle", format!("{} for {}", angle(released.set_angle_rad), angle(released.free_angle_rad))),
        row("Opens by", format_angle(Angle::from_radians(opens), 2)),
        row("CLR left", length(released.free_clr_mm, part.units)),
        row(
            // The straight that comes to the machine before the bend, as the drawing has it.
            match from {
                End::Start => "Straight left before",
                End::Finish => "Straight left after",
            },
            format!(
                "{} of {}",
                length(released.straight_ahead_mm, part.units),
                length(made.straight_ahead_mm, part.units)
            ),
        ),
    ];
    let note = if released.material_unknown {
        format!(
            "The shop does not know {}, so no springback at all is assumed. Bend a trial piece.",
            part.tube.material
        )
    } else if ground.unsure() {
        "From yield stress and modulus; a shop usually finds 2 to 5 times as much (from memory). Bend two or three trial \
         pieces and enter what you measured."
            .to_owned()
    } else {
        "By this shop's own figures for this die set and material.".to_owned()
    };
    Group { title: "Springback", rows, note, open: true }
}

fn tooling(part: &Part, shop: &Shop, made: &SolvedBend, formed: &Formed) -> Group {
    let (od, wall, clr) = (part.tube.od, part.tube.wall, Length::from_mm(made.clr_mm));
    let published = |name: &str, value: String, note: &str| Row::new(name, value, Ground::Published, note);
    let mut rows = vec![
        published("Wall factor", format_number(formed.wall_factor(), 1), "OD over wall"),
        published("D of bend", format_number(formed.bend_diameters(), 2), "CLR over OD"),
        published(
            "Difficulty",
            format!(
                "{}, {}",
                difficulty::shown(formed.difficulty()),
                if formed.difficulty() <= SIMPLE_DIFFICULTY { "simple" } else { "not simple" }
            ),
            "A tool-maker's published rule; up to 7 is simple",
        ),
        published(
            "Mandrel nose",
            formed.mandrel_nose_mm().map_or_else(
                || format!("no mandrel fits: bore {}", fine(mandrel::bore(od, wall), part.units)),
                |nose| fine(Length::from_mm(nose), part.units),
            ),
            "OD - 2.21 walls, a published shop formula",
        ),
    ];
    let balls = mandrel::balls(od, wall, clr);
    rows.push(Row::new("Mandrel balls", balls.text.to_owned(), balls.ground, mandrel::CHART));
    let wiper = mandrel::wiper(od, wall, clr);
    rows.push(Row::new("Wiper", wiper.text.to_owned(), wiper.ground, mandrel::CHART));
    if let Some(advice) = mandrel::made_of(&part.tube.material, shop.material(&part.tube.material)) {
        rows.push(Row::new("Mandrel and wiper of", advice.text.to_owned(), advice.ground, mandrel::MADE_OF));
    }
    Group {
        title: "Mandrel and wiper to start with",
        rows,
        note:
            "The tool-maker's chart for your machine goes before this. Never close a clamp on a ball mandrel's balls."
                .to_owned(),
        open: true,
    }
}

fn roundness(part: &Part, made: &SolvedBend) -> Group {
    let rows = ovality::limits(part.tube.od, Length::from_mm(made.clr_mm)).into_iter().map(|limit| {
        let value = format!("{}, {}", percent(limit.share), fine(limit.difference, part.units));
        Row::new(limit.who, value, limit.ground, limit.asks).noted()
    });
    Group {
        title: "Ovality: who allows what",
        rows: rows.collect(),
        note: "Largest less smallest diameter. Nothing here predicts it: measure a trial bend.".to_owned(),
        open: false,
    }
}
