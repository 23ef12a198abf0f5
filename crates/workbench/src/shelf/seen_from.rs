//! The path of a file as it is seen from a folder, so that both can be moved together.

use std::path::{Component, Path};

/// The way from a folder to a file, with `/` between its names; the whole path of the file where no way leads there, as
/// on another drive. `None` where its name cannot be written as text. Both paths are absolute.
pub(crate) fn seen_from(folder: &Path, file: &Path) -> Option<String> {
    let (from, to): (Vec<_>, Vec<_>) = (folder.components().collect(), file.components().collect());
    let shared = from.iter().zip(&to).take_while(|(one, two)| one == two).count();
    let leads_there = from[shared..].iter().chain(&to[shared..]).all(|name| matches!(name, Component::Normal(_)));
    if !leads_there {
        return file.to_str().map(str::to_owned);
    }
    let up = from[shared..].iter().map(|_| Some(".."));
    let names: Option<Vec<_>> = up.chain(to[shared..].iter().map(|name| name.as_os_str().to_str())).collect();
    names.map(|names| names.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_way_leads_up_and_down_again() {
        let root = if cfg!(windows) { "C:/" } else { "/" };
        let seen = |folder: &str, file: &str| {
            let [folder, file] = [folder, file].map(|path| Path::new(root).join(path));
            seen_from(&folder, &file)
        };
        assert_eq!(seen("car", "car/floor.stl").as_deref(), Some("floor.stl"));
        assert_eq!(seen("car", "car/parts/floor.stl").as_deref(), Some("parts/floor.stl"));
        assert_eq!(seen("car/tubes", "car/parts/floor.stl").as_deref(), Some("../parts/floor.stl"));
        assert_eq!(seen("car", "cars/floor.stl").as_deref(), Some("../cars/floor.stl"));
        assert_eq!(seen("", "floor.stl").as_deref(), Some("floor.stl"));
        let odd = Path::new(root).join("car/../floor.stl");
        assert_eq!(seen_from(&Path::new(root).join("car"), &odd).as_deref(), odd.to_str(), "no way that is sure");
    }
}
