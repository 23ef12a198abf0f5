//! Standard drawing scales.

/// A scale: so many lengths on paper for so many of the tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    drawn: u32,
    real: u32,
}

impl Scale {
    /// Full size.
    pub const FULL: Self = Self::new(1, 1);

    /// The scales of ISO 5455, largest first: 1, 2 and 5 in every decade, up to 10 : 1 and down to what holds the longest tube
    /// that is accepted.
    pub const STANDARD: [Self; 22] = [
        Self::new(10, 1),
        Self::new(5, 1),
        Self::new(2, 1),
        Self::FULL,
        Self::new(1, 2),
        Self::new(1, 5),
        Self::new(1, 10),
        Self::new(1, 20),
        Self::new(1, 50),
        Self::new(1, 100),
        Self::new(1, 200),
        Self::new(1, 500),
        Self::new(1, 1_000),
        Self::new(1, 2_000),
        Self::new(1, 5_000),
        Self::new(1, 10_000),
        Self::new(1, 20_000),
        Self::new(1, 50_000),
        Self::new(1, 100_000),
        Self::new(1, 200_000),
        Self::new(1, 500_000),
        Self::new(1, 1_000_000),
    ];

    const fn new(drawn: u32, real: u32) -> Self {
        Self { drawn, real }
    }

    /// What a length of the tube is multiplied by.
    pub fn factor(self) -> f64 {
        f64::from(self.drawn) / f64::from(self.real)
    }

    /// The largest standard scale that passes, and the smallest where none does.
    pub fn largest(passes: impl Fn(Self) -> bool) -> Self {
        let smallest = Self::STANDARD[Self::STANDARD.len() - 1];
        Self::STANDARD.into_iter().find(|scale| passes(*scale)).unwrap_or(smallest)
    }

    /// How many standard scales smaller it is than another.
    pub fn steps_below(self, other: Self) -> usize {
        let place = |scale: Self| Self::STANDARD.iter().position(|one| *one == scale).unwrap_or(0);
        place(self).saturating_sub(place(other))
    }

    /// How it is written, such as `1:5`.
    pub fn text(self) -> String {
        format!("{}:{}", self.drawn, self.real)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_are_those_of_the_standard() {
        // ISO 5455: 2:1, 5:1, 10:1; 1:1; 1:2, 1:5, 1:10, 1:20, 1:50, …, 1:10 000 (from memory).
        let texts: Vec<String> = Scale::STANDARD.iter().map(|scale| scale.text()).collect();
        assert_eq!(texts[..10], ["10:1", "5:1", "2:1", "1:1", "1:2", "1:5", "1:10", "1:20", "1:50", "1:100"]);
        assert!(Scale::STANDARD.windows(2).all(|pair| pair[0].factor() > pair[1].factor()));
        assert_eq!(Scale::largest(|scale| scale.factor() * 1010.0 < 130.0).text(), "1:10");
        assert_eq!(Scale::largest(|_| false).text(), "1:1000000");
        assert_eq!(Scale::new(1, 10).steps_below(Scale::new(1, 2)), 2);
    }
}
