//! Which stretch of tube carries which mark: the very stretches of the findings, the worst one where they overlap.
//! What is said of the tube as a whole marks its two ends, where nothing else is said of them: painted all along, it
//! would hide every other mark.

use elbowroom_bending::{Finding, Place, Severity};

/// Marks shorter than this are not drawn, mm: a nanometre has no skin.
const SHORTEST_MM: f64 = 1e-6;

/// A finding about the whole tube marks so much of each end, diameters.
const END_DIAMETERS: f64 = 2.0;
/// And no more than this share of the tube.
const END_SHARE: f64 = 0.125;

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

/// The marks of findings on a tube of so many mm outside, in order along the tube and nowhere overlapping, within the
/// stations that there are.
pub fn marks(findings: &[Finding], stations_mm: (f64, f64), od_mm: f64) -> Vec<Mark> {
    let places = findings.iter().flat_map(|finding| finding.places().map(|place| (finding.severity, *place)));
    marks_at(places, stations_mm, od_mm)
}

fn marks_at(places: impl Iterator<Item = (Severity, Place)>, (first_mm, last_mm): (f64, f64), od_mm: f64) -> Vec<Mark> {
    let end_mm = (END_DIAMETERS * od_mm).min(END_SHARE * (last_mm - first_mm));
    let mut edges: Vec<(f64, usize, i32)> = Vec::new();
    for (severity, place) in places {
        let (from_mm, to_mm) = (place.from_mm.max(first_mm), place.to_mm.min(last_mm));
        if to_mm - from_mm <= SHORTEST_MM {
            continue;
        }
        if place.is_whole_tube() {
            let level = severity as usize + OF_ENDS;
            let ends = [(first_mm, first_mm + end_mm), (last_mm - end_mm, last_mm)];
            edges.extend(ends.into_iter().flat_map(|(from_mm, to_mm)| [(from_mm, level, 1), (to_mm, level, -1)]));
        } else {
            edges.extend([(from_mm, severity as usize, 1), (to_mm, severity as usize, -1)]);
        }
    }
    edges.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut marks: Vec<Mark> = Vec::new();
    let mut open = [0_i32; 2 * OF_ENDS];
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

/// The levels of what marks the ends come after those of what marks its own place.
const OF_ENDS: usize = 3;

/// The worst that speaks of this very place, else of the tube as a whole.
fn worst(open: &[i32; 2 * OF_ENDS]) -> Option<Severity> {
    let levels = [Severity::Stop, Severity::Caution, Severity::Note];
    let at = |offset: usize| levels.into_iter().find(|severity| open[*severity as usize + offset] > 0);
    at(0).or_else(|| at(OF_ENDS))
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
        (severity, Place { from_mm, to_mm, straight: Some(0), ..Place::default() })
    }

    fn of_whole(severity: Severity, to_mm: f64) -> (Severity, Place) {
        (severity, Place { from_mm: 0.0, to_mm, ..Place::default() })
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
        assert_eq!(marks_at(places.into_iter(), (0.0, 500.0), 40.0), expected);
    }

    #[test]
    fn a_finding_marks_all_its_places() {
        // A U on a radius that is less than the tube: its legs meet, and both are marked.
        let rows = vec![row(300.0, 0.0, 90.0), row_at(200.0, 0.0, 180.0, 25.0)];
        let (part, shop) = (part(rows, 300.0).unwrap(), shop());
        let solved = solve(&part, &shop);
        let meeting = solved.findings.iter().find(|finding| !finding.also.is_empty()).unwrap();
        let marks = marks(std::slice::from_ref(meeting), solved.centreline.stations_mm(), 40.0);
        for place in meeting.places() {
            assert_eq!(severity_at(&marks, (place.from_mm + place.to_mm) / 2.0), Some(Severity::Stop));
        }
    }

    #[test]
    fn neighbours_of_one_severity_are_one_mark_within_the_tube() {
        use Severity::Stop;
        let places = [found(Stop, -30.0, 20.0), found(Stop, 20.0, 50.0), found(Stop, 10.0, 30.0)];
        assert_eq!(marks_at(places.into_iter(), (0.0, 45.0), 40.0), [mark(Stop, 0.0, 45.0)]);
    }

    #[test]
    fn places_without_length_or_off_the_tube_carry_no_mark() {
        use Severity::Caution;
        let places = [found(Caution, 30.0, 30.0), found(Caution, 900.0, 950.0), found(Caution, 60.0, 50.0)];
        assert_eq!(marks_at(places.into_iter(), (0.0, 500.0), 40.0), []);
    }

    #[test]
    fn what_is_said_of_the_whole_tube_marks_its_ends_and_hides_nothing() {
        use Severity::{Caution, Note, Stop};
        let places = [of_whole(Stop, 500.0), found(Caution, 200.0, 300.0), found(Note, 470.0, 500.0)];
        let expected =
            [mark(Stop, 0.0, 40.0), mark(Caution, 200.0, 300.0), mark(Stop, 460.0, 470.0), mark(Note, 470.0, 500.0)];
        assert_eq!(marks_at(places.into_iter(), (0.0, 500.0), 20.0), expected);
        // Of a stub no more than an eighth.
        let stub = [mark(Stop, 0.0, 10.0), mark(Stop, 70.0, 80.0)];
        assert_eq!(marks_at([of_whole(Stop, 80.0)].into_iter(), (0.0, 80.0), 40.0), stub);
    }

    #[test]
    fn a_blank_that_is_too_long_leaves_the_other_marks_to_be_seen() {
        let part = part(vec![row(6100.0, 0.0, 30.0), row(220.0, 90.0, 60.0)], 300.0).unwrap();
        let solved = solve(&part, &shop());
        let whole = solved.findings.iter().filter(|finding| finding.place.is_whole_tube()).count();
        assert_eq!(whole, 1, "{:?}", solved.findings);
        let marks = marks(&solved.findings, solved.centreline.stations_mm(), part.tube.od.mm());
        let (first_mm, last_mm) = solved.centreline.stations_mm();
        assert_eq!(severity_at(&marks, first_mm + 1.0), Some(Severity::Stop));
        assert_eq!(severity_at(&marks, last_mm - 1.0), Some(Severity::Stop));
        assert_eq!(severity_at(&marks, 1500.0), None, "the long straight is sound");
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
