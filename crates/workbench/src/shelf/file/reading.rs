//! Native files read and written by the kind that they are.

use elbowroom_bending::material::Material;
use elbowroom_bending::{Part, Shop, System};

use super::format::print;
use super::problem::FileProblem;
use super::recovery_v5::Recovered;
use super::{kinds, shop_v3, system_v4};

/// Reads a system; a part is one of a single tube. `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_system(text: &str, file: &str) -> Result<System, FileProblem> {
    kinds::SYSTEM.read(text, file)
}

/// The format of a text where it is an older one than systems are written in, such as `elbowroom-part/1`, so that saving
/// changes what can read it; `None` of any other text.
pub fn older_stamp(text: &str) -> Option<&'static str> {
    kinds::SYSTEM.older(text)
}

/// The format that systems are written in.
pub fn todays_stamp() -> &'static str {
    kinds::SYSTEM.newest()
}

/// Writes a system, to be read back to the bit by [`read_system`].
pub fn write_system(system: &System) -> String {
    const HEAD: &str =
        "An Elbowroom system: bent tubes, each from its start to its finish. Lengths in mm, angles in degrees.";
    print(HEAD, &system_v4::SystemV4::from(system), 5)
}

/// Reads the part of a file that holds a single tube.
///
/// # Errors
/// Says on which line what is wrong and what would be right; refuses a file of several tubes.
pub fn read_part(text: &str, file: &str) -> Result<Part, FileProblem> {
    let system = read_system(text, file)?;
    match system.tubes() {
        [tube] => Ok(Part::clone(&tube.part)),
        tubes => {
            let what = format!("it holds {} tubes: {}", tubes.len(), system.names_told());
            Err(FileProblem::whole(file, what, "a file of a single tube is wanted here"))
        }
    }
}

/// Writes a part as the system of a single tube, to be read back to the bit by [`read_part`].
pub fn write_part(part: &Part) -> String {
    write_system(&System::of(part.clone()))
}

/// Reads a shop. `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_shop(text: &str, file: &str) -> Result<Shop, FileProblem> {
    kinds::SHOP.read(text, file)
}

/// Writes a shop, to be read back to the bit by [`read_shop`].
pub fn write_shop(shop: &Shop) -> String {
    const HEAD: &str = "An Elbowroom shop: machine, tubes, die sets and clamps. Lengths in mm, angles in degrees.";
    print(HEAD, &shop_v3::ShopV3::from(shop), 3)
}

/// What is to be said where a shop file of an older version is written anew; `None` where it is of today's.
pub(crate) fn shop_raised(text: &str) -> Option<String> {
    let older = kinds::SHOP.older(text)?;
    let newest = kinds::SHOP.newest();
    Some(format!("It was {older} and is {newest} now, which an older Elbowroom does not read."))
}

/// Reads a library of materials. `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_materials(text: &str, file: &str) -> Result<Vec<Material>, FileProblem> {
    kinds::MATERIALS.read(text, file)
}

/// Reads a recovery file: the system, its own file, and what that held.
///
/// # Errors
/// Says on which line what is wrong.
pub fn read_recovery(text: &str, name: &str) -> Result<Recovered, FileProblem> {
    kinds::RECOVERY.read(text, name)
}
