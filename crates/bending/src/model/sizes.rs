//! Standard tube sizes, each with the list it comes from.

use elbowroom_geometry::Length;

use super::ground::Ground;

/// One size of a list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandardSize {
    /// Outside diameter.
    pub od: Length,
    /// Wall.
    pub wall: Length,
    /// The list it comes from.
    pub list: &'static SizeList,
}

/// A list of sizes.
#[derive(Debug, PartialEq)]
pub struct SizeList {
    /// What it is called.
    pub name: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// How sure it is.
    pub ground: Ground,
    /// Millimetres in the unit of `sizes`.
    in_mm: f64,
    /// Outside diameter and wall.
    sizes: &'static [(f64, f64)],
}

/// The lists, the one for exhausts first.
pub static LISTS: &[SizeList] = &[
    SizeList {
        name: "exhaust size",
        source: "common practice, no source; masses by arithmetic",
        ground: Ground::CommonPractice,
        in_mm: 1.0,
        sizes: &[
            (38.1, 1.5),
            (42.4, 1.5),
            (44.5, 1.5),
            (48.3, 1.5),
            (50.8, 1.5),
            (54.0, 1.5),
            (57.0, 1.5),
            (60.3, 1.5),
            (63.5, 1.5),
            (70.0, 1.5),
            (76.2, 1.5),
            (76.2, 1.6),
            (88.9, 2.0),
            (101.6, 2.0),
        ],
    },
    SizeList {
        name: "inch tube of ASTM A554",
        source: "list of an A554 supplier; the walls are 20, 18, 16 and 11 BWG",
        ground: Ground::Published,
        in_mm: 25.4,
        sizes: &[
            (1.0, 0.065),
            (1.5, 0.065),
            (1.625, 0.065),
            (1.75, 0.120),
            (2.0, 0.035),
            (2.0, 0.049),
            (2.0, 0.065),
            (2.25, 0.049),
            (2.5, 0.049),
            (3.0, 0.065),
            (4.0, 0.065),
        ],
    },
    SizeList {
        name: "metric tube of ISO 1127",
        source: "from memory of the table of conventional masses",
        ground: Ground::Memory,
        in_mm: 1.0,
        sizes: &[(33.7, 2.0), (42.4, 2.0), (48.3, 2.0), (60.3, 2.0), (76.1, 2.0), (88.9, 2.0), (114.3, 2.0)],
    },
    SizeList {
        name: "pipe of ASTM A312",
        source: "mass table of ASTM A312, schedules 5S and 10S",
        ground: Ground::Published,
        in_mm: 1.0,
        sizes: &[
            (33.40, 1.66),
            (42.16, 1.66),
            (48.26, 1.66),
            (48.26, 2.77),
            (60.33, 1.66),
            (60.33, 2.77),
            (73.03, 2.11),
            (88.90, 2.11),
            (114.30, 2.11),
        ],
    },
];

/// Every size of every list.
pub fn standard_sizes() -> impl Iterator<Item = StandardSize> {
    LISTS.iter().flat_map(|list| {
        list.sizes.iter().map(move |(od, wall)| StandardSize {
            od: Length::from_mm(od * list.in_mm),
            wall: Length::from_mm(wall * list.in_mm),
            list,
        })
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::material::mass_per_metre;
    use crate::{Seam, Tube};
    use approx::assert_abs_diff_eq;

    fn mass(list: &str, od_mm: f64, wall_mm: f64, density: f64) -> f64 {
        let same = |a: f64, b: f64| (a - b).abs() < 1e-9;
        let size = standard_sizes()
            .find(|size| size.list.name.contains(list) && same(size.od.mm(), od_mm) && same(size.wall.mm(), wall_mm))
            .unwrap();
        mass_per_metre(&Tube::new(size.od, size.wall, "steel", Seam::Welded).unwrap(), density)
    }

    #[test]
    fn every_size_is_a_tube() {
        assert!(standard_sizes().count() >= 40);
        for size in standard_sizes() {
            assert!(Tube::new(size.od, size.wall, "steel", Seam::Welded).is_ok(), "{size:?}");
        }
    }

    #[test]
    fn sizes_weigh_what_their_lists_print() {
        // ASTM A312 table (scribd 190333589), printed at 7.85.
        for (od, wall, expected) in [(48.26, 1.66, 1.91), (60.33, 1.66, 2.40), (73.03, 2.11, 3.69)] {
            assert_abs_diff_eq!(mass("A312", od, wall, 7.85), expected, epsilon = 6e-3);
        }
        // ASTM A554 list (ecer.com), lb/ft at the factor 10.68 of carbon steel.
        let carbon = 10.68 / (12.0 * std::f64::consts::PI) * 27.679_904_7;
        for (od, wall, pounds) in [
            (1.625, 0.065, 1.083),
            (1.75, 0.120, 2.090),
            (2.0, 0.035, 0.735),
            (2.0, 0.065, 1.343),
            (2.25, 0.049, 1.152),
        ] {
            let found = mass("A554", od * 25.4, wall * 25.4, carbon) * 0.3048 / 0.453_592_37;
            assert_abs_diff_eq!(found, pounds, epsilon = 2e-3);
        }
        // ISO 1127 conventional masses, from memory; they fit a factor of 0.0249 to 0.0251 only.
        for (od, expected) in
            [(33.7, 1.58), (42.4, 2.02), (48.3, 2.32), (60.3, 2.92), (76.1, 3.70), (88.9, 4.35), (114.3, 5.62)]
        {
            assert_abs_diff_eq!(mass("1127", od, 2.0, 7.96), expected, epsilon = 0.015);
        }
        // Exhaust sizes at 7.93, arithmetic.
        for (od, wall, expected) in [(42.4, 1.5, 1.528), (54.0, 1.5, 1.962), (57.0, 1.5, 2.074), (70.0, 1.5, 2.560)] {
            assert_abs_diff_eq!(mass("exhaust", od, wall, 7.93), expected, epsilon = 1e-3);
        }
    }
}
