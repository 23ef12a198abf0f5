//! Shop files of version 1, apart from the live [`Shop`].

use elbowroom_bending::text::harmless;
use elbowroom_bending::{Basis, Clamp, DieSet, Hand, Machine, Shop};
use elbowroom_geometry::units::format_any;
use elbowroom_geometry::{Angle, BendPath, LARGEST_MM, Refusal};
use serde::{Deserialize, Serialize};

use super::format::parse;
use super::materials_v1::MaterialV1;
use super::numbers::{Degrees, Millimetres};
use super::problem::FileProblem;
use super::shop_v2::ShopV2;
use super::springback_v1::{LimitsV1, SpringbackV1};
use super::tube_v1::TubeV1;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-shop/1";

/// Reads a shop of version 1.
pub(crate) fn read(text: &str, file: &str) -> Result<Shop, FileProblem> {
    let shop: ShopV1 = parse(text, file)?;
    Shop::try_from(ShopV2::from(shop)).map_err(|refusal| FileProblem::whole(file, refusal.to_string(), ""))
}

/// A shop as it stands in a file of version 1.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ShopV1 {
    pub(super) format: String,
    pub(super) name: String,
    pub(super) machine: MachineV1,
    pub(super) tubes: Vec<TubeV1>,
    pub(super) die_sets: Vec<DieSetV1>,
    /// The shop's own materials; they go before those of the library.
    #[serde(default)]
    pub(super) materials: Vec<MaterialV1>,
    #[serde(default)]
    pub(super) springback: Vec<SpringbackV1>,
    #[serde(default)]
    pub(super) limits: LimitsV1,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum BasisV1 {
    CommonPractice,
    Shop,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum HandV1 {
    Right,
    Left,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "MachineFields", into = "MachineFields")]
pub(super) struct MachineV1(pub(super) Machine);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct MachineFields {
    name: String,
    longest_blank_mm: Millimetres,
    tail_hold_mm: Millimetres,
    largest_angle_deg: Degrees,
    hand: HandV1,
    square_end_diameters: f64,
    basis: BasisV1,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "DieSetFields", into = "DieSetFields")]
pub(super) struct DieSetV1(pub(super) DieSet);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct DieSetFields {
    name: String,
    od_mm: Millimetres,
    clr_mm: Millimetres,
    largest_angle_deg: Degrees,
    mark_free_bite_mm: Millimetres,
    largest_bite_mm: Millimetres,
    basis: BasisV1,
    clamps: Vec<ClampV1>,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "ClampFields", into = "ClampFields")]
struct ClampV1(Clamp);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ClampFields {
    length_mm: Millimetres,
    proved_to_deg: Degrees,
    basis: BasisV1,
}

impl From<BasisV1> for Basis {
    fn from(basis: BasisV1) -> Self {
        match basis {
            BasisV1::CommonPractice => Self::CommonPractice,
            BasisV1::Shop => Self::Shop,
        }
    }
}

impl From<Basis> for BasisV1 {
    fn from(basis: Basis) -> Self {
        match basis {
            Basis::CommonPractice => Self::CommonPractice,
            Basis::Shop => Self::Shop,
        }
    }
}

/// The largest length of tooling and of what it holds: several times that of the largest benders. Common practice,
/// no source.
const LARGEST_TOOLING: Millimetres = Millimetres(10_000.0);
/// The longest blank: a coil. Common practice, no source.
const LONGEST_BLANK: Millimetres = Millimetres(LARGEST_MM);

fn positive(field: &str, value: Millimetres, most: Millimetres) -> Result<Millimetres, Refusal> {
    if value.0 > 0.0 && value.0 <= most.0 {
        return Ok(value);
    }
    Err(Refusal::new(field, format!("{} mm", value.0), format!("more than 0 mm and up to {} mm", most.0)))
}

fn not_negative(field: &str, value: Millimetres) -> Result<Millimetres, Refusal> {
    if value.0 >= 0.0 && value.0 <= LARGEST_TOOLING.0 {
        return Ok(value);
    }
    Err(Refusal::new(field, format!("{} mm", value.0), format!("from 0 mm to {} mm", LARGEST_TOOLING.0)))
}

fn bend_angle(field: &str, value: Degrees) -> Result<Angle, Refusal> {
    if value.0 > Angle::ZERO && value.0 <= BendPath::LARGEST_ANGLE {
        return Ok(value.0);
    }
    Err(Refusal::new(field, format!("{}°", (value.0.degrees() * 1e9).round() / 1e9), "more than 0° and up to 359°"))
}

impl TryFrom<MachineFields> for MachineV1 {
    type Error = Refusal;

    fn try_from(fields: MachineFields) -> Result<Self, Refusal> {
        if !((0.0..=100.0).contains(&fields.square_end_diameters)) {
            let was = format_any(fields.square_end_diameters);
            return Err(Refusal::new("the field square_end_diameters", was, "a number from 0 to 100"));
        }
        Ok(Self(Machine {
            name: harmless(&fields.name).into_owned(),
            longest_blank: positive("the longest blank", fields.longest_blank_mm, LONGEST_BLANK)?.into(),
            tail_hold: not_negative("the tail hold", fields.tail_hold_mm)?.into(),
            largest_angle: bend_angle("the machine's largest angle", fields.largest_angle_deg)?,
            hand: match fields.hand {
                HandV1::Right => Hand::Right,
                HandV1::Left => Hand::Left,
            },
            square_end_diameters: fields.square_end_diameters,
            basis: fields.basis.into(),
        }))
    }
}

impl From<MachineV1> for MachineFields {
    fn from(MachineV1(machine): MachineV1) -> Self {
        Self {
            name: machine.name,
            longest_blank_mm: machine.longest_blank.into(),
            tail_hold_mm: machine.tail_hold.into(),
            largest_angle_deg: Degrees(machine.largest_angle),
            hand: match machine.hand {
                Hand::Right => HandV1::Right,
                Hand::Left => HandV1::Left,
            },
            square_end_diameters: machine.square_end_diameters,
            basis: machine.basis.into(),
        }
    }
}

impl TryFrom<ClampFields> for ClampV1 {
    type Error = Refusal;

    fn try_from(fields: ClampFields) -> Result<Self, Refusal> {
        Ok(Self(Clamp {
            length: positive("the length of the clamp", fields.length_mm, LARGEST_TOOLING)?.into(),
            proved_angle: bend_angle("the angle the clamp has proved", fields.proved_to_deg)?,
            basis: fields.basis.into(),
        }))
    }
}

impl From<ClampV1> for ClampFields {
    fn from(ClampV1(clamp): ClampV1) -> Self {
        let basis = clamp.basis.into();
        Self { length_mm: clamp.length.into(), proved_to_deg: Degrees(clamp.proved_angle), basis }
    }
}

impl TryFrom<DieSetFields> for DieSetV1 {
    type Error = Refusal;

    fn try_from(mut fields: DieSetFields) -> Result<Self, Refusal> {
        fields.name = harmless(&fields.name).into_owned();
        let of = |what: &str| format!("{what} of die set \"{}\"", fields.name);
        let mut clamps: Vec<Clamp> = fields.clamps.into_iter().map(|clamp| clamp.0).collect();
        clamps.sort_by(|a, b| a.length.mm().total_cmp(&b.length.mm()));
        if clamps.is_empty() {
            return Err(Refusal::new(of("the number of clamps"), "0", "at least 1"));
        }
        if clamps.windows(2).any(|pair| pair[0].length == pair[1].length) {
            return Err(Refusal::new(of("a length of clamp"), "given twice", "given once"));
        }
        let od = positive(&of("the outside diameter"), fields.od_mm, LARGEST_TOOLING)?;
        let clr = positive(&of("the centreline radius"), fields.clr_mm, LARGEST_TOOLING)?;
        if clr.0 < od.0 / 2.0 {
            let may_be = format!("half the outside diameter ({} mm) or more", od.0 / 2.0);
            return Err(Refusal::new(of("the centreline radius"), format!("{} mm", clr.0), may_be));
        }
        let mark_free = not_negative(&of("the mark-free bite"), fields.mark_free_bite_mm)?;
        let largest = not_negative(&of("the largest bite"), fields.largest_bite_mm)?;
        if largest.0 < mark_free.0 {
            let may_be = format!("the mark-free bite ({} mm) or more", mark_free.0);
            return Err(Refusal::new(of("the largest bite"), format!("{} mm", largest.0), may_be));
        }
        let largest_angle = bend_angle(&of("the largest angle"), fields.largest_angle_deg)?;
        Ok(Self(DieSet {
            od: od.into(),
            clr: clr.into(),
            clamps,
            mark_free_bite: mark_free.into(),
            largest_bite: largest.into(),
            largest_angle,
            basis: fields.basis.into(),
            name: fields.name,
        }))
    }
}

impl From<DieSetV1> for DieSetFields {
    fn from(DieSetV1(die): DieSetV1) -> Self {
        Self {
            name: die.name,
            od_mm: die.od.into(),
            clr_mm: die.clr.into(),
            largest_angle_deg: Degrees(die.largest_angle),
            mark_free_bite_mm: die.mark_free_bite.into(),
            largest_bite_mm: die.largest_bite.into(),
            basis: die.basis.into(),
            clamps: die.clamps.into_iter().map(ClampV1).collect(),
        }
    }
}
