//! Wall gauges: the British standard wire gauge and the Birmingham gauge for tube.

/// The numbers that the tables hold, first and last.
pub(super) const GAUGES: (usize, usize) = (10, 22);

/// Birmingham gauge (tube) from 10 to 22, thousandths of an inch. Source: engineeringtoolbox.com d_508,
/// two further pages agree (Z15).
const BWG_THOU: [u16; 13] = [134, 120, 109, 95, 83, 72, 65, 58, 49, 42, 35, 32, 28];

/// Standard wire gauge from 10 to 22, thousandths of an inch. Source: wire-gauge page of
/// home.clara.net, a second page agrees (Z16).
const SWG_THOU: [u16; 13] = [128, 116, 104, 92, 80, 72, 64, 56, 48, 40, 36, 32, 28];

/// Which gauge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Gauge {
    /// Birmingham gauge.
    Birmingham,
    /// Standard wire gauge.
    StandardWire,
}

impl Gauge {
    /// Thickness in inches of a gauge number; `None` where the table does not hold it.
    pub fn inches(self, number: f64) -> Option<f64> {
        let table = match self {
            Self::Birmingham => &BWG_THOU,
            Self::StandardWire => &SWG_THOU,
        };
        let place = number - GAUGES.0 as f64;
        if place < 0.0 || place.fract() != 0.0 {
            return None;
        }
        table.get(place as usize).map(|thou| f64::from(*thou) / 1000.0)
    }
}
