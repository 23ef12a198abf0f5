//! The family of a tube's metal: what rubs well on it, and what its fume holds.

use crate::material::Material;

/// A family of metals that are tooled and treated alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Metal {
    /// Stainless steel: fume holds hexavalent chromium.
    Stainless,
    /// Carbon steel, bare or coated.
    Steel,
    /// Aluminium and its alloys.
    Aluminium,
    /// Titanium.
    Titanium,
    /// Not known by its name.
    Unknown,
}

impl Metal {
    /// The family by the words of the name, and of the other names the material goes by.
    pub fn of(name: &str, known: Option<&Material>) -> Self {
        let names = known.into_iter().flat_map(|material| material.also.iter().chain([&material.name]));
        let mut names = names.map(String::as_str).chain([name]).map(str::to_lowercase);
        let by_word = |name: &String| {
            let has = |word: &str| name.contains(word);
            if has("stainless") {
                Some(Self::Stainless)
            } else if has("titanium") {
                Some(Self::Titanium)
            } else if has("steel") {
                // Before aluminium: aluminised steel is steel.
                Some(Self::Steel)
            } else if has("aluminium") || has("aluminum") {
                Some(Self::Aluminium)
            } else {
                None
            }
        };
        names.find_map(|name| by_word(&name)).unwrap_or(Self::Unknown)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn families_by_name() {
        for (name, metal) in [
            ("304 stainless", Metal::Stainless),
            ("Aluminised steel", Metal::Steel),
            ("mild steel", Metal::Steel),
            ("6061-T4 aluminium", Metal::Aluminium),
            ("6063 aluminum", Metal::Aluminium),
            ("titanium grade 2", Metal::Titanium),
            ("unobtainium", Metal::Unknown),
        ] {
            assert_eq!(Metal::of(name, None), metal, "{name}");
        }
    }

    #[test]
    fn another_name_tells_too() {
        let material = crate::specimen::stainless();
        assert_eq!(Metal::of("304", Some(&material)), Metal::Stainless);
    }
}
