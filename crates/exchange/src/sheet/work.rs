//! All that is worked out about a tube before anything is laid out.

use elbowroom_bending::first_off::Tolerance;
use elbowroom_bending::first_off::job::{Job, tolerance};
use elbowroom_bending::plan::Plan;
use elbowroom_bending::program_sheet::ProgramSheet;
use elbowroom_bending::setup::Setup;
use elbowroom_bending::{Part, Shop, Solved, Told, Verdict, Words, solve};
use elbowroom_geometry::Length;

/// A tube with its plan, and where its shop comes from.
pub struct Work<'a> {
    /// The part.
    pub part: Part,
    /// The shop it is bent in.
    pub shop: &'a Shop,
    /// Where that shop comes from, such as `built in`.
    pub shop_from: &'a str,
    /// The part solved.
    pub solved: Solved,
    /// How it is bent, corrected by the measured pieces that it holds; why it cannot be, where it cannot.
    pub planned: Result<Planned, String>,
    /// How far a finished part may stray.
    pub tolerance: Tolerance,
}

/// How a tube is bent.
pub struct Planned {
    /// The plan.
    pub plan: Plan,
    /// All of it in words.
    pub sheet: ProgramSheet,
}

impl<'a> Work<'a> {
    /// Works out a part on a shop.
    pub fn of(part: &Part, shop: &'a Shop, shop_from: &'a str) -> Self {
        let solved = solve(part, shop);
        let choice = part.tooling.tolerance;
        let planned = Plan::of(part, shop, &solved);
        let (tolerance, planned) = match planned {
            Ok(plan) => {
                let tolerance = tolerance(&plan, choice);
                let plan = Job::of(&plan, &part.pieces, &tolerance).planned(&plan);
                let sheet = ProgramSheet::of(&plan, shop, Setup::of(&plan, shop));
                (tolerance, Ok(Planned { plan, sheet }))
            }
            Err(why) => {
                let bent = solved.bends.iter().filter(|bend| bend.is_bent()).count();
                (choice.over(Tolerance::usual(bent, part.tube.od)), Err(why.to_string()))
            }
        };
        Self { part: part.clone(), shop, shop_from, solved, planned, tolerance }
    }

    /// The verdict in one sentence.
    pub fn verdict(&self) -> Verdict {
        self.solved.verdict(&self.words())
    }

    /// Everything that was found, in words.
    pub fn findings(&self) -> Vec<Told> {
        let words = self.words();
        self.solved.told(&words)
    }

    /// What the tube is called, also where nobody has named it.
    pub fn name(&self) -> &str {
        if self.part.name.trim().is_empty() { "Tube without a name" } else { &self.part.name }
    }

    /// Outside diameter, wall, material and seam, in words.
    pub fn tube(&self) -> String {
        let seam = match self.part.tube.seam {
            elbowroom_bending::Seam::Welded => "welded",
            elbowroom_bending::Seam::Seamless => "seamless",
        };
        format!("{} {}, {seam}", self.part.tube.size(self.part.units), self.part.tube.material)
    }

    /// A length with its unit.
    pub fn length(&self, length_mm: f64) -> String {
        self.part.units.shown(length_mm).to_string()
    }

    /// A length without its unit.
    pub fn bare(&self, length: Length) -> String {
        self.part.units.bare(length.mm()).to_string()
    }

    fn words(&self) -> Words<'_> {
        Words::new(&self.part, self.shop, &self.solved)
    }
}
