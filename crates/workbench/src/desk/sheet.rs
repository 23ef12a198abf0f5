//! The sheets of the right column.

/// A sheet of the right column: what a person is about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Sheet {
    /// Laying the tube out: rows, findings, why.
    #[default]
    Bends,
    /// What bending does to the tube: walls, stretch, springback, seam, material.
    Forming,
    /// The bend program and what else to set on the machine.
    Program,
    /// Which of the shop's tooling makes the part.
    Tooling,
    /// What the shop knows of springback, by trial bends.
    Springback,
    /// The first piece measured, and the program for the next.
    FirstOff,
}

impl Sheet {
    /// Every sheet, in the order of its tabs.
    pub const ALL: &[Self] =
        &[Self::Bends, Self::Forming, Self::Program, Self::Tooling, Self::Springback, Self::FirstOff];

    /// What its tab says.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bends => "Bends",
            Self::Forming => "Forming",
            Self::Program => "Program",
            Self::Tooling => "Tooling",
            Self::Springback => "Springback",
            Self::FirstOff => "First-off",
        }
    }

    /// What its tab's tooltip says.
    pub const fn purpose(self) -> &'static str {
        match self {
            Self::Bends => "The bends as rows, what the checks found, and why.",
            Self::Forming => "What bending does to the tube: walls, stretch, springback, seam, material.",
            Self::Program => "What to set on the machine, bend by bend, from either end and for either hand.",
            Self::Tooling => {
                "Which die set and clamp of the shop makes the part, and what the drawing would have to be."
            }
            Self::Springback => "What trial bends say of springback, and the angle to set for each bend.",
            Self::FirstOff => "What the first piece measures, and the program for the next one.",
        }
    }
}

/// How the table on the sheet of bends says the path.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Table {
    /// As the machine takes it: straight, rotation, angle, CLR.
    #[default]
    Rows,
    /// As it lies in space: x, y, z, CLR.
    Points,
}

impl Table {
    /// Both, in the order in which they are offered.
    pub const ALL: &[Self] = &[Self::Rows, Self::Points];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Rows => "Rows",
            Self::Points => "Points",
        }
    }

    /// What the tooltip says.
    pub const fn purpose(self) -> &'static str {
        match self {
            Self::Rows => "The bends as the machine takes them: straight, rotation, angle, CLR.",
            Self::Points => "Where the tube lies in the coordinates of the drawing: both ends and each bend.",
        }
    }
}
