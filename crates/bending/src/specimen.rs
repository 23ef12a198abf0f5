//! A small sound shop and short ways to write parts, for tests and benches. Not part of the program.
//!
//! All figures are common practice, no source.

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Refusal};

use crate::forming::process::{Limits, RecordFigures, SpringbackRecord};
use crate::forming::springback::{SpringbackLine, TrialBend, TrialFigures};
use crate::material::{Certainty, Figure, Material, MaterialFigures};
use crate::{
    Basis, Clamp, ClampFigures, ClampLength, DieSet, DieSetFigures, End, ExtraStock, Guard, Guarded, Hand, Keep,
    MachineFigures, Nodes, Part, Path, RotationSetting, SeamStart, Shop, Solved, Told, ToolingChoice, Tube, Verdict,
    Words, solve,
};

/// Outside diameter of the specimen tube, mm.
pub const OD_MM: f64 = 50.8;
/// Radius of its 1.5D die, mm.
pub const CLR_MM: f64 = 76.2;

/// A die set with clamps of 50, 80 and 125 mm, proved to 45°, 90° and 180°.
pub fn die_set(name: &str, od_mm: f64, clr_mm: f64) -> DieSet {
    let figures = DieSetFigures {
        name: name.into(),
        od: Length::from_mm(od_mm),
        clr: Length::from_mm(clr_mm),
        clamps: vec![clamp(50.0, 45.0), clamp(80.0, 90.0), clamp(125.0, 180.0)],
        mark_free_bite: Length::from_mm(0.3),
        largest_bite: Length::from_mm(2.0),
        largest_angle: Angle::from_degrees(180.0),
        basis: Basis::CommonPractice,
    };
    held(figures)
}

/// A clamp by its length and the angle to which it is proved, mm and degrees.
pub fn clamp(length_mm: f64, proved: f64) -> Clamp {
    held(ClampFigures {
        length: Length::from_mm(length_mm),
        proved_angle: Angle::from_degrees(proved),
        basis: Basis::CommonPractice,
        proved_on: None,
    })
}

/// Figures that are known to be sound, behind their guard.
fn held<T: Guard>(figures: T) -> Guarded<T> {
    figures.sound().expect("a specimen is sound")
}

/// Changes figures to others that are known to be sound.
pub fn change<T: Guard + Clone>(held: &mut Guarded<T>, how: impl FnOnce(&mut T)) {
    held.change(how).expect("a specimen stays sound");
}

/// Changes a die set of a shop, counted from 0.
pub fn change_die(shop: &mut Shop, index: usize, how: impl FnOnce(&mut DieSetFigures)) {
    change(&mut shop.die_sets, |dies| change(&mut dies[index], how));
}

/// Makes all that is known of the die sets and clamps of a shop its own.
pub fn prove_dies(shop: &mut Shop) {
    for index in 0..shop.die_sets.len() {
        change_die(shop, index, |die| {
            die.basis = Basis::Shop;
            die.clamps.iter_mut().for_each(|clamp| change(clamp, |clamp| clamp.basis = Basis::Shop));
        });
    }
}

/// The choice of a clamp by its length, mm.
pub fn clamp_of(length_mm: f64) -> ClampLength {
    ClampLength::new(Length::from_mm(length_mm)).expect("a specimen of a clamp")
}

/// A seam pinned at so many degrees.
pub fn seam_at(degrees: f64) -> SeamStart {
    SeamStart::new(Angle::from_degrees(degrees)).expect("a specimen of a seam")
}

/// A shop with the 1.5D and 2D die sets for 50.8 mm and a 1.5D one for 60.3 mm.
pub fn shop() -> Shop {
    Shop {
        name: "specimen".into(),
        tubes: vec![tube()],
        die_sets: held(vec![
            die_set("50.8 at 1.5D", OD_MM, CLR_MM),
            die_set("50.8 at 2D", OD_MM, 101.6),
            die_set("60.3 at 1.5D", 60.3, 90.5),
        ]),
        machine: held(MachineFigures {
            name: "specimen bender".into(),
            longest_blank: Length::from_mm(6000.0),
            tail_hold: Length::from_mm(150.0),
            largest_angle: Angle::from_degrees(190.0),
            hand: Hand::Right,
            square_end_diameters: 1.0,
            rotation: RotationSetting::Turn,
            basis: Basis::CommonPractice,
        }),
        materials: vec![stainless()],
        springback: Vec::new(),
        limits: Limits::default(),
    }
}

/// A shop that has proved every figure it can: its own limits, angles and materials, and trial bends of every die
/// set in every material.
pub fn proved(mut shop: Shop) -> Shop {
    change(&mut shop.machine, |machine| machine.basis = Basis::Shop);
    change(&mut shop.limits, |limits| limits.basis = Basis::Shop);
    prove_dies(&mut shop);
    for material in &mut shop.materials {
        change(material, |material| {
            let kinds = [
                &mut material.modulus_gpa,
                &mut material.yield_mpa,
                &mut material.tensile_mpa,
                &mut material.elongation_percent,
                &mut material.density,
            ];
            kinds.into_iter().flatten().for_each(|figure| figure.certainty = Certainty::Shop);
        });
    }
    for die in shop.die_sets.iter() {
        for material in &shop.materials {
            let trials = vec![trial(40.0, 39.0), trial(120.0, 117.0)];
            shop.springback.push(known(die, &material.name, |known| known.trials = trials));
        }
    }
    shop
}

/// 304 stainless by its minima in ASTM A240 and its modulus and density in EN 10088-1.
pub fn stainless() -> Material {
    let figure = |value, source: &str| vec![Figure { value, certainty: Certainty::Published, source: source.into() }];
    held(MaterialFigures {
        name: Tube::USUAL_MATERIAL.into(),
        also: vec!["304".into()],
        modulus_gpa: figure(200.0, "EN 10088-1"),
        yield_mpa: figure(205.0, "ASTM A240, minimum"),
        tensile_mpa: figure(515.0, "ASTM A240, minimum"),
        elongation_percent: figure(40.0, "ASTM A240, minimum"),
        density: figure(7.90, "EN 10088-1"),
        expansion: Vec::new(),
    })
}

/// 50.8 × 1.5 mm stainless, welded.
pub fn tube() -> Tube {
    tube_of_wall(1.5)
}

/// The same of another wall.
pub fn tube_of_wall(wall_mm: f64) -> Tube {
    Tube::usual(Length::from_mm(OD_MM), Length::from_mm(wall_mm)).expect("a specimen of a tube")
}

/// A row from millimetres and degrees on the 1.5D radius.
pub fn row(straight_mm: f64, rotation: f64, angle: f64) -> BendRow {
    row_at(straight_mm, rotation, angle, CLR_MM)
}

/// A row from millimetres and degrees.
pub fn row_at(straight_mm: f64, rotation: f64, angle: f64, clr_mm: f64) -> BendRow {
    BendRow {
        straight: Length::from_mm(straight_mm),
        rotation: Angle::from_degrees(rotation),
        angle: Angle::from_degrees(angle),
        clr: Length::from_mm(clr_mm),
    }
}

/// A part of the specimen tube along a path.
pub fn part_along(path: Path) -> Part {
    Part {
        name: "specimen".into(),
        note: String::new(),
        tube: tube(),
        tooling: ToolingChoice::default(),
        path,
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        keep: Keep::default(),
        units: LengthUnit::Millimetre,
    }
}

/// A part of the specimen tube from bend rows and its tail (mm), starting along +x.
///
/// # Errors
/// Refuses what [`BendPath::new`] refuses.
pub fn part(rows: Vec<BendRow>, tail_mm: f64) -> Result<Part, Refusal> {
    let path = BendPath::new(Frame::world(), rows, Length::from_mm(tail_mm))?;
    Ok(part_along(Path::Bends(path)))
}

/// A part as it is bent from an end and to a side.
pub fn bent(part: &Part, from: End, hand: Hand) -> Part {
    let mut part = part.clone();
    (part.tooling.from, part.tooling.hand) = (from, Some(hand));
    part
}

/// A trial bend by its angles alone, degrees.
pub fn trial(set: f64, measured: f64) -> TrialBend {
    held(TrialFigures {
        set: Angle::from_degrees(set),
        measured: Angle::from_degrees(measured),
        measured_radius: None,
        drawn_length: None,
        wall: Some(tube().wall),
    })
}

/// A springback line: so many degrees, and so many more a degree set.
pub fn line(a_deg: f64, b: f64) -> SpringbackLine {
    SpringbackLine::new(Angle::from_degrees(a_deg), b).expect("a specimen of a line")
}

/// A line to which another comes on top.
pub fn steeper(line: SpringbackLine, more: SpringbackLine) -> SpringbackLine {
    SpringbackLine::new(line.a() + more.a(), line.b() + more.b()).expect("a specimen of a line")
}

/// What a shop knows of a die set in a material.
pub fn known(die: &DieSet, material: &str, how: impl FnOnce(&mut RecordFigures)) -> SpringbackRecord {
    let mut figures = RecordFigures::new(&die.name, material);
    how(&mut figures);
    held(figures)
}

/// A springback line of the shop's own for a die set in 304 stainless: so many degrees, and so many more a
/// degree set.
pub fn own_line(die: &DieSet, a_deg: f64, b: f64) -> SpringbackRecord {
    known(die, "304", |known| known.line = Some(line(a_deg, b)))
}

/// A solved part with all that is said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// The solution.
    pub solved: Solved,
    /// The verdict.
    pub verdict: Verdict,
    /// The findings in words.
    pub findings: Vec<Told>,
}

impl std::ops::Deref for Judged {
    type Target = Solved;

    fn deref(&self) -> &Solved {
        &self.solved
    }
}

/// Solves a part and writes down everything that is to be said of it.
pub fn judged(part: &Part, shop: &Shop) -> Judged {
    let solved = solve(part, shop);
    let words = Words::new(part, shop, &solved);
    let findings = solved.told(&words);
    let verdict = solved.verdict(&words);
    Judged { verdict, findings, solved }
}
