//! Stretches that would lie over one another are put side by side in lanes.

/// The lane of every stretch, in the order given: the first lane in which it touches none before it.
/// Stretches that fit in none of the `most` lanes go to the last one.
pub fn lanes(stretches: impl IntoIterator<Item = (f64, f64)>, most: usize) -> Vec<usize> {
    let mut taken: Vec<Vec<(f64, f64)>> = Vec::new();
    let last = most.saturating_sub(1);
    stretches
        .into_iter()
        .map(|(from, to)| {
            let free = |lane: &Vec<(f64, f64)>| lane.iter().all(|other| to <= other.0 || from >= other.1);
            let lane = taken.iter().position(free).unwrap_or(taken.len()).min(last);
            if lane == taken.len() {
                taken.push(Vec::new());
            }
            taken[lane].push((from, to));
            lane
        })
        .collect()
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
