//! Which stretch of tube carries which mark: the very stretches of the findings, the worst one where they overlap.

use elbowroom_bending::{Finding, Place, Severity};

/// Marks shorter than this are not drawn, mm: a nanometre has no skin.
const SHORTEST_MM: f64 = 1e-6;

/// A marked stretch of tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Where it begins, mm along the tube.
    pub from_mm: f64,
    /// Where it ends.
    pub to_mm: f64,
    /// The worst severity there.
    pub severity: Severity,
}

/// The marks of findings, in order along the tube and nowhere overlapping, within the stations that there are.
pub fn marks(findings: &[Finding], stations_mm: (f64, f64)) -> Vec<Mark> {
    let places = findings.iter().flat_map(|finding| finding.places().map(|place| (finding.severity, *place)));
    marks_at(places, stations_mm)
}

fn marks_at(places: impl Iterator<Item = (Severity, Place)>, (first_mm, last_mm): (f64, f64)) -> Vec<Mark> {
    let mut edges: Vec<(f64, usize, i32)> = Vec::new();
    for (severity, place) in places {
        let level = severity as usize;
        let (from_mm, to_mm) = (place.from_mm.max(first_mm), place.to_mm.min(last_mm));
        if to_mm - from_mm > SHORTEST_MM {
            edges.extend([(from_mm, level, 1), (to_mm, level, -1)]);
        }
    }
    edges.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut marks: Vec<Mark> = Vec::new();
    let mut open = [0_i32; 3];
    for (index, (station_mm, level, step)) in edges.iter().enumerate() {
        open[*level] += step;
        let Some((next_mm, ..)) = edges.get(index + 1) else { break };
        let Some(severity) = worst(&open).filter(|_| next_mm - station_mm > SHORTEST_MM) else { continue };
        match marks.last_mut() {
            Some(last) if last.severity == severity && last.to_mm == *station_mm => last.to_mm = *next_mm,
            _ => marks.push(Mark { from_mm: *station_mm, to_mm: *next_mm, severity }),
        }
    }
    marks
}

fn worst(open: &[i32; 3]) -> Option<Severity> {
    let levels = [Severity::Stop, Severity::Caution, Severity::Note];
    levels.into_iter().find(|severity| open[*severity as usize] > 0)
}

/// The severity at a station, mm.
pub fn severity_at(marks: &[Mark], station_mm: f64) -> Option<Severity> {
    let mark = marks.get(marks.partition_point(|mark| mark.to_mm <= station_mm))?;
    (mark.from_mm <= station_mm).then_some(mark.severity)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::solve;
    use elbowroom_bending::specimen::{part, row, row_at, shop};

    use super::*;

    fn found(severity: Severity, from_mm: f64, to_mm: f64) -> (Severity, Place) {
        (severity, Place { from_mm, to_mm, ..Place::default() })
    }

    fn mark(severity: Severity, from_mm: f64, to_mm: f64) -> Mark {
        Mark { from_mm, to_mm, severity }
    }

    #[test]
    fn the_worst_wins_where_stretches_overlap() {
        use Severity::{Caution, Note, Stop};
        let places = [found(Note, 0.0, 100.0), found(Stop, 40.0, 60.5), found(Caution, 50.0, 80.0)];
        let expected =
            [mark(Note, 0.0, 40.0), mark(Stop, 40.0, 60.5), mark(Caution, 60.5, 80.0), mark(Note, 80.0, 100.0)];
        assert_eq!(marks_at(places.into_iter(), (0.0, 500.0)), expected);
    }

    #[test]
    fn a_finding_marks_all_its_places() {
        // A U on a radius that is less than the tube: its legs meet, and both are marked.
        let rows = vec![row(300.0, 0.0, 90.0), row_at(200.0, 0.0, 180.0, 25.0)];
        let (part, shop) = (part(rows, 300.0).unwrap(), shop());
        let solved = solve(&part, &shop);
        let meeting = solved.findings.iter().find(|finding| !finding.also.is_empty()).unwrap();
        let marks = marks(std::slice::from_ref(meeting), solved.centreline.stations_mm());
        for place in meeting.places() {
            assert_eq!(severity_at(&marks, (place.from_mm + place.to_mm) / 2.0), Some(Severity::Stop));
        }
    }

    #[test]
    fn neighbours_of_one_severity_are_one_mark_within_the_tube() {
        use Severity::Stop;
        let places = [found(Stop, -30.0, 20.0), found(Stop, 20.0, 50.0), found(Stop, 10.0, 30.0)];
        assert_eq!(marks_at(places.into_iter(), (0.0, 45.0)), [mark(Stop, 0.0, 45.0)]);
    }

    #[test]
    fn places_without_length_or_off_the_tube_carry_no_mark() {
        use Severity::Caution;
        let places = [found(Caution, 30.0, 30.0), found(Caution, 900.0, 950.0), found(Caution, 60.0, 50.0)];
        assert_eq!(marks_at(places.into_iter(), (0.0, 500.0)), []);
    }

    #[test]
    fn stations_find_their_mark() {
        let marks = [mark(Severity::Note, 10.0, 20.0), mark(Severity::Stop, 20.0, 30.0)];
        let rows = [(5.0, None), (15.0, Some(Severity::Note)), (25.0, Some(Severity::Stop)), (35.0, None)];
        for (station, severity) in rows {
            assert_eq!(severity_at(&marks, station), severity, "{station}");
        }
    }
}
