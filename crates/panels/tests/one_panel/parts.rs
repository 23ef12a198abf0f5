//! Parts and a shop for tests. The numbers are of the tests' own.

use elbowroom_bending::{
    Basis, Clamp, ClampFigures, DieSetFigures, ExtraStock, Guard, Hand, Keep, MachineFigures, Nodes, Part, Path,
    RotationSetting, Seam, Shop, ToolingChoice, Tube,
};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length};
use elbowroom_workbench::Workbench;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn clamp(length: f64, proved: f64, basis: Basis) -> Clamp {
    ClampFigures { length: mm(length), proved_angle: Angle::from_degrees(proved), basis, proved_on: None }
        .sound()
        .unwrap()
}

/// A shop with two die sets for 50.8 mm tube and one for 38 mm.
pub fn shop() -> Shop {
    let die = |name: &str, od: f64, clr: f64, clamps: Vec<Clamp>| {
        let figures = DieSetFigures {
            name: name.into(),
            od: mm(od),
            clr: mm(clr),
            clamps,
            mark_free_bite: mm(0.3),
            largest_bite: mm(2.0),
            largest_angle: Angle::from_degrees(190.0),
            basis: Basis::CommonPractice,
        };
        figures.sound().unwrap()
    };
    let machine = MachineFigures {
        name: "Test bender".into(),
        longest_blank: mm(4000.0),
        tail_hold: mm(150.0),
        largest_angle: Angle::from_degrees(190.0),
        hand: Hand::Right,
        square_end_diameters: 0.5,
        rotation: RotationSetting::Turn,
        basis: Basis::CommonPractice,
    };
    let die_sets = vec![
        die("38 on 57", 38.1, 57.15, vec![clamp(90.0, 180.0, Basis::CommonPractice)]),
        die("51 on 76", 50.8, 76.2, vec![clamp(80.0, 60.0, Basis::Shop), clamp(125.0, 180.0, Basis::CommonPractice)]),
        die("51 on 102", 50.8, 101.6, vec![clamp(125.0, 180.0, Basis::CommonPractice)]),
    ];
    Shop {
        name: "Test shop".into(),
        tubes: vec![tube(50.8, 1.5, Seam::Welded), tube(38.1, 1.5, Seam::Welded), tube(60.3, 2.0, Seam::Seamless)],
        die_sets: die_sets.sound().unwrap(),
        machine: machine.sound().unwrap(),
        ..elbowroom_workbench::file::built_in_shop()
    }
}

/// A tube of 304 stainless.
pub fn tube(od: f64, wall: f64, seam: Seam) -> Tube {
    Tube::new(mm(od), mm(wall), Tube::USUAL_MATERIAL, seam).unwrap()
}

/// A part in bend form: rows of straight (mm), rotation and angle (degrees) at CLR 76.2, and the tail.
pub fn part(rows: &[(f64, f64, f64)], tail: f64) -> Part {
    let rows = rows.iter().map(|(straight, rotation, angle)| BendRow {
        straight: mm(*straight),
        rotation: Angle::from_degrees(*rotation),
        angle: Angle::from_degrees(*angle),
        clr: mm(76.2),
    });
    Part {
        name: "Test part".into(),
        note: String::new(),
        tube: tube(50.8, 1.5, Seam::Welded),
        tooling: ToolingChoice::default(),
        path: Path::Bends(BendPath::new(Frame::world(), rows.collect(), mm(tail)).unwrap()),
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        keep: Keep::default(),
        units: LengthUnit::Millimetre,
    }
}

/// Everything fits.
pub fn sound() -> Workbench {
    Workbench::new(part(&[(200.0, 0.0, 90.0), (160.0, 90.0, 45.0), (140.0, -90.0, 30.0)], 220.0), shop())
}

/// The clamp of bend 2 reaches over bend 1 (a mark), that of bend 3 far over bend 2 (cannot close).
pub fn short_straights() -> Workbench {
    let rows = [(90.0, 0.0, 45.0), (115.0, 60.0, 60.0), (60.0, 180.0, 90.0), (180.0, 30.0, 20.0)];
    Workbench::new(part(&rows, 100.0), shop())
}

/// Two arcs want the same room.
pub fn overlapping() -> Workbench {
    Workbench::new(part(&[(200.0, 0.0, 90.0), (-25.0, 90.0, 60.0)], 200.0), shop())
}

/// Two hundred bends.
pub fn two_hundred() -> Workbench {
    let rows: Vec<_> =
        (0..200_u32).map(|k| (130.0, f64::from(k * 37 % 360) - 180.0, 10.0 + f64::from(k % 7) * 12.0)).collect();
    Workbench::new(part(&rows, 200.0), shop())
}
