//! What the view for the machine shows the steps of.

use elbowroom_bending::plan::Plan;
use elbowroom_bending::program_sheet::ProgramSheet;
use elbowroom_bending::setup::Setup;
use elbowroom_workbench::Workbench;

/// A plan with its sheet, or why there is none.
pub type Planned = Result<(Plan, ProgramSheet), String>;

/// The plan of a workbench with its sheet.
pub fn planned(workbench: &Workbench) -> Planned {
    let plan = workbench.planned().map_err(|why| why.to_string())?;
    let shop = workbench.shop();
    let sheet = ProgramSheet::of(&plan, shop, Setup::of(&plan, shop));
    Ok((plan, sheet))
}
