//! Bends near half a turn, bent on paper: the arc lands where it was drawn as well as its grown radius lets it, the
//! legs run as drawn, both ends lie where they should, and nothing jumps from one angle to the next.
#![allow(clippy::unwrap_used, missing_docs)]

use elbowroom_bending::forming::growth::Growth;
use elbowroom_bending::forming::springback::SpringbackBasis;
use elbowroom_bending::forward::{BentPart, replay};
use elbowroom_bending::program::{Forming, program};
use elbowroom_bending::rigid_fit::rigid_fit;
use elbowroom_bending::{Hand, plan, solve, specimen};
use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Point3};
use proptest::prelude::*;

const CLR_MM: f64 = 90.5;
const LEGS_MM: [f64; 2] = [400.0, 350.0];
/// What a person draws, and the angles on either side of it.
const DRAWN: [f64; 12] = [150.0, 160.0, 165.0, 170.0, 175.0, 178.0, 179.0, 179.9, 179.99, 180.0, 180.1, 185.0];
/// An everyday line on steel and an extreme one, as degrees and a share.
const LINES: [(f64, f64); 4] = [(1.0, 0.025), (0.5, 0.01), (2.0, 0.05), (0.0, 0.0)];

fn forming((a_deg, b): (f64, f64)) -> Forming {
    Forming {
        die_clr: Length::from_mm(CLR_MM),
        line: specimen::line(a_deg, b),
        basis: SpringbackBasis::Trials,
        stretch: 0.0,
        clamp: Length::from_mm(120.0),
    }
}

fn u(degrees: f64) -> BendPath {
    let row = BendRow {
        straight: Length::from_mm(LEGS_MM[0]),
        rotation: Angle::ZERO,
        angle: Angle::from_degrees(degrees),
        clr: Length::from_mm(CLR_MM),
    };
    BendPath::new(Frame::world(), vec![row], Length::from_mm(LEGS_MM[1])).unwrap()
}

fn bent(degrees: f64, line: (f64, f64), hand: Hand) -> BentPart {
    let trim = Length::from_mm(30.0);
    replay(&program(&u(degrees), &[forming(line)], trim, trim).unwrap(), hand, &[])
}

fn growth_mm(degrees: f64, line: (f64, f64)) -> f64 {
    forming(line).line.free_radius(Length::from_mm(CLR_MM), Angle::from_degrees(degrees)).mm() - CLR_MM
}

/// Tip, arc's beginning, crown, arc's end and end of a U in one plane, the first leg along +x from the origin.
fn outline(straight_mm: f64, clr_mm: f64, degrees: f64, tail_mm: f64) -> [[f64; 2]; 5] {
    let on_arc = |turned: f64| [straight_mm + clr_mm * turned.sin(), clr_mm * (1.0 - turned.cos())];
    let turned = degrees.to_radians();
    let end = on_arc(turned);
    [
        [0.0, 0.0],
        on_arc(0.0),
        on_arc(turned / 2.0),
        end,
        [end[0] + tail_mm * turned.cos(), end[1] + tail_mm * turned.sin()],
    ]
}

/// The replayed U in the axes of its first leg, plane and all, to be compared with [`outline`].
fn laid_out(part: &BentPart) -> [[f64; 2]; 4] {
    let [begins, ends] = part.tangent_points[0];
    let along = (begins - part.tip).normalize();
    let aside = (ends - begins) - along * (ends - begins).dot(&along);
    let aside = aside.normalize();
    let flat = |point: Point3<f64>| [(point - part.tip).dot(&along), (point - part.tip).dot(&aside)];
    [flat(part.tip), flat(begins), flat(ends), flat(part.end)]
}

fn away(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The crown of a replayed U: half way between the tangent points, and out by the mid-ordinate R (1 - cos(θ/2)) (G07).
fn crown(part: [[f64; 2]; 4], degrees: f64, clr_mm: f64) -> [f64; 2] {
    let half = degrees.to_radians() / 2.0;
    let outwards = [half.sin(), -half.cos()];
    let middle = [(part[1][0] + part[2][0]) / 2.0, (part[1][1] + part[2][1]) / 2.0];
    let ordinate = clr_mm * (1.0 - half.cos());
    [middle[0] + outwards[0] * ordinate, middle[1] + outwards[1] * ordinate]
}

/// Every angle that is looked at.
fn angles() -> impl Iterator<Item = f64> {
    (1500..=2100).map(|tenths| f64::from(tenths) / 10.0).chain(DRAWN)
}

#[test]
fn the_arc_lands_within_four_times_the_growth_of_its_radius() {
    for line in LINES {
        for degrees in angles() {
            let growth = growth_mm(degrees, line);
            let here = laid_out(&bent(degrees, line, Hand::Right));
            let drawn = outline(LEGS_MM[0], CLR_MM, degrees, LEGS_MM[1]);
            let allowed = 4.0 * growth + 1.0;
            for (what, place, was) in [
                ("begins", here[1], drawn[1]),
                ("crown", crown(here, degrees, CLR_MM + growth), drawn[2]),
                ("ends", here[2], drawn[3]),
            ] {
                assert!(
                    away(place, was) <= allowed,
                    "{what} at {degrees}° is {} mm off, {growth} mm",
                    away(place, was)
                );
            }
        }
    }
}

#[test]
fn both_ends_and_the_directions_of_the_legs_are_as_drawn() {
    for line in LINES {
        for degrees in angles() {
            let growth = growth_mm(degrees, line);
            let here = laid_out(&bent(degrees, line, Hand::Left));
            let drawn = outline(LEGS_MM[0], CLR_MM, degrees, LEGS_MM[1]);
            let turned = degrees.to_radians();
            let second = [turned.cos(), turned.sin()];
            let leg = [here[3][0] - here[2][0], here[3][1] - here[2][1]];
            let turned_off = (leg[0] * second[1] - leg[1] * second[0]).abs() / leg[0].hypot(leg[1]);
            assert!(turned_off < 1e-9, "the second leg is turned by {turned_off} at {degrees}°");
            // The end is off only square to its leg, and by what the legs move apart; a leg's end lies as far along.
            let off = [here[3][0] - drawn[4][0], here[3][1] - drawn[4][1]];
            let grown = Growth {
                drawn: Length::from_mm(CLR_MM),
                free: Length::from_mm(CLR_MM + growth),
                angle: Angle::from_degrees(degrees),
            };
            let moved = grown.leg_moves().mm();
            // Seen from the first leg the second one is moved by its own outward movement and by that of the first.
            let expected = [moved * second[1], moved - moved * second[0]];
            assert!(away(off, expected) < 1e-6, "{degrees}°: {off:?} for {expected:?}");
        }
    }
}

#[test]
fn nothing_jumps_between_neighbouring_angles() {
    for line in LINES {
        let drawn_and_bent = |degrees: f64| {
            let (here, drawn) =
                (laid_out(&bent(degrees, line, Hand::Right)), outline(LEGS_MM[0], CLR_MM, degrees, LEGS_MM[1]));
            [[here[1][0] - drawn[1][0], here[1][1] - drawn[1][1]], [here[3][0] - drawn[4][0], here[3][1] - drawn[4][1]]]
        };
        let step = 0.02;
        let mut before = drawn_and_bent(149.0);
        for tick in 1..=3100 {
            let degrees = 149.0 + f64::from(tick) * step;
            let here = drawn_and_bent(degrees);
            let allowed = (growth_mm(degrees, line) * 0.5 + 0.01) * step + 1e-9;
            for (now, was) in here.iter().zip(before) {
                assert!(away(*now, was) < allowed, "{} mm at {degrees}°, {line:?}", away(*now, was));
            }
            before = here;
        }
    }
}

#[test]
fn a_half_turn_reaches_as_far_as_drawn() {
    // A U of 90.5 mm with an everyday line: 185.64° set, a free radius of 93.34 mm. It reaches to 490.5 mm as drawn
    // and comes back to 50 mm, and its legs lie twice the growth of the radius further apart.
    let line = (1.0, 0.025);
    let growth = growth_mm(180.0, line);
    assert!((growth - 90.5 * (181.0 / 0.975 / 180.0 - 1.0)).abs() < 1e-9);
    let here = laid_out(&bent(180.0, line, Hand::Right));
    assert!((crown(here, 180.0, CLR_MM + growth)[0] - 490.5).abs() < 1e-9);
    assert!((here[3][0] - 50.0).abs() < 1e-9);
    assert!((here[3][1] - (181.0 + 2.0 * growth)).abs() < 1e-9);
}

#[test]
fn no_everyday_u_asks_for_a_straight_that_is_not_there() {
    // 179.9° asked for a feed of -21.7 mm once.
    for degrees in DRAWN {
        let part = specimen::part(vec![specimen::row(300.0, 0.0, degrees)], 400.0).unwrap();
        let mut shop = specimen::shop();
        for die in 0..shop.die_sets.len() {
            specimen::change_die(&mut shop, die, |die| die.largest_angle = Angle::from_degrees(190.0));
        }
        shop.springback.push(specimen::own_line(&shop.die_sets[0], 1.0, 0.025));
        let plan = plan::plan(&part, &shop).unwrap();
        let step = &plan.program.steps[0];
        let growth = (step.free_clr - Length::from_mm(specimen::CLR_MM)).mm();
        assert!(step.feed.mm() >= 300.0 - 4.0 * growth, "{degrees}°: {}", step.feed.mm());
        let released = solve(&part, &shop).bends[0].formed.unwrap().released.unwrap();
        assert!((released.straight_ahead_mm - step.feed.mm()).abs() < 1e-9);
    }
}

/// What a person types, degree by half degree, and what the solved part and its program make of it.
#[test]
fn solved_parts_do_not_jump_from_half_degree_to_half_degree() {
    for (a, b) in [(0.5, 0.01), (1.0, 0.025), (1.5, 0.03)] {
        let mut shop = specimen::shop();
        for die in 0..shop.die_sets.len() {
            specimen::change_die(&mut shop, die, |die| die.largest_angle = Angle::from_degrees(205.0));
        }
        specimen::change(&mut shop.machine, |machine| machine.largest_angle = Angle::from_degrees(215.0));
        shop.springback.push(specimen::own_line(&shop.die_sets[0], a, b));
        let mut before: Option<[f64; 4]> = None;
        for half_degrees in 280..=400 {
            let degrees = f64::from(half_degrees) / 2.0;
            let part = specimen::part(vec![specimen::row(300.0, 0.0, degrees)], 400.0).unwrap();
            let solved = solve(&part, &shop);
            let released = solved.bends[0].formed.unwrap().released.unwrap();
            let plan = plan::plan(&part, &shop).unwrap();
            let growth_mm = released.free_clr_mm - specimen::CLR_MM;
            assert!((0.0..=4.0 * growth_mm + 1.0).contains(&released.takes_mm), "{degrees}°: {}", released.takes_mm);
            let legs_mm = released.leg_spacing().map_or(0.0, |spacing| (spacing.bent - spacing.drawn).mm());
            assert!((0.0..=2.5 * growth_mm).contains(&legs_mm), "{degrees}°: {legs_mm}");
            let here = [released.takes_mm, legs_mm, plan.program.steps[0].feed.mm(), plan.program.tail.mm()];
            if let Some(before) = before {
                for (now, was) in here.iter().zip(before) {
                    // At 150° the vertex itself asks for 0.13 of the growth a degree.
                    assert!((now - was).abs() <= 0.25 * growth_mm * 0.5 + 0.01, "{degrees}°: {was} to {now}");
                }
            }
            before = Some(here);
        }
    }
}

fn a_bend() -> impl Strategy<Value = (f64, f64, f64)> {
    let angle = prop_oneof![prop::sample::select(DRAWN.to_vec()), 150.0..200.0f64, 5.0..149.0f64];
    let rotation = prop_oneof![prop::sample::select(vec![0.0, 90.0, 180.0, -45.0]), -180.0..180.0f64];
    (150.0..400.0f64, rotation, angle)
}

proptest! {
    #[test]
    fn the_bent_tube_is_the_one_the_program_tells(rows in prop::collection::vec(a_bend(), 1..5)) {
        let row = |&(straight, rotation, angle): &(f64, f64, f64)| BendRow {
            straight: Length::from_mm(straight),
            rotation: Angle::from_degrees(rotation),
            angle: Angle::from_degrees(angle),
            clr: Length::from_mm(CLR_MM),
        };
        let path = BendPath::new(Frame::world(), rows.iter().map(row).collect(), Length::from_mm(210.0)).unwrap();
        let program = program(&path, &vec![forming((1.0, 0.025)); rows.len()], Length::ZERO, Length::ZERO).unwrap();
        let bent = replay(&program, Hand::Right, &[]);
        let mut points = vec![bent.tip];
        points.extend(bent.tangent_points.iter().flatten());
        points.push(bent.end);
        let line = elbowroom_geometry::Centreline::of(&program.as_bent);
        let mut told = vec![program.as_bent.start().origin];
        told.extend(line.elements().iter().map(|element| element.end().origin));
        prop_assert_eq!(told.len(), points.len());
        prop_assert!(rigid_fit(&told, &points).unwrap().worst_mm < 1e-6);
    }
}
