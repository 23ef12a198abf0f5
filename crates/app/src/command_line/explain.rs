//! `elbowroom explain`: the manual pages of the checks.

use elbowroom_bending::checks::{REGISTRY, named};

use super::arguments::Explain;
use super::{Failure, Outcome, output};

/// Lists every check, or shows the manual page of one.
pub fn run(arguments: &Explain) -> Result<Outcome, Failure> {
    let text = match &arguments.fault {
        None => list(),
        Some(name) => page(name)?,
    };
    output::print(&text)?;
    Ok(Outcome::Passes)
}

fn list() -> String {
    let width = REGISTRY.iter().map(|check| check.fault.len()).max().unwrap_or(0);
    let mut text = String::from("Every check, and what it looks for:\n\n");
    for check in REGISTRY {
        text += &format!("  {:<width$}  {}\n", check.fault, check.summary);
    }
    text += "\nThe manual page of one: elbowroom explain FAULT\n";
    text
}

fn page(name: &str) -> Result<String, Failure> {
    let check = named(name).ok_or_else(|| {
        let known: Vec<_> = REGISTRY.iter().map(|check| check.fault).collect();
        Failure::NoSuchFault { name: name.into(), known: format!("the checks are {}", known.join(", ")) }
    })?;
    let severity = format!("Severity\n  {}", check.severity);
    Ok(format!("{} ({})\n{}\n\n{severity}\n\n{}\n", check.title, check.fault, check.summary, check.manual.trim()))
}
