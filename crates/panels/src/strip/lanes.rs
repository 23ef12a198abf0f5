//! Stretches that would lie over one another are put side by side in lanes.

use super::model::Model;

/// The lane of every stretch, in the order given: the first lane in which it touches none before it.
/// Stretches that fit in none of the `most` lanes go to the last one.
pub fn lanes(stretches: impl IntoIterator<Item = (f64, f64)>, most: usize) -> Vec<usize> {
    // The stretches of each lane in order along the tube; none touches its neighbour.
    let mut taken: Vec<Vec<(f64, f64)>> = vec![Vec::new(); most.max(1)];
    let mut place = |(from, to): (f64, f64)| {
        for (index, lane) in taken.iter_mut().enumerate() {
            let at = lane.partition_point(|other| other.0 < from);
            let free_before = at.checked_sub(1).is_none_or(|before| lane[before].1 <= from);
            let free_after = lane.get(at).is_none_or(|after| after.0 >= to);
            if free_before && free_after {
                lane.insert(at, (from, to));
                return index;
            }
        }
        most.saturating_sub(1)
    };
    stretches.into_iter().map(&mut place).collect()
}

/// The lanes of the clamps and of the findings.
pub struct Lanes {
    /// One for every footprint.
    pub clamps: Vec<usize>,
    /// One for every mark.
    pub marks: Vec<usize>,
}

impl Lanes {
    /// Puts what overlaps side by side.
    pub fn of(model: &Model, most: usize) -> Self {
        Self {
            clamps: lanes(model.footprints.iter().map(|clamp| (clamp.from_mm, clamp.to_mm)), most),
            marks: lanes(model.marks.iter().map(|mark| (mark.from_mm, mark.to_mm)), most),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_touches_goes_to_another_lane() {
        assert_eq!(lanes([(0.0, 10.0), (5.0, 15.0), (10.0, 20.0), (12.0, 13.0)], 3), [0, 1, 0, 2]);
        assert_eq!(lanes([(0.0, 10.0), (0.0, 10.0), (0.0, 10.0)], 2), [0, 1, 1]);
        assert!(lanes([], 2).is_empty());
    }
}
