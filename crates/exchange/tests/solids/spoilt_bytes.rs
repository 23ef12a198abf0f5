//! STEP files and drawings spoilt in the ways in which disks, programs and people spoil files: no panic, a quick end, a
//! refusal that can be shown; and what is read all the same is the tube that was there, or another one that is told of.

use std::time::{Duration, Instant};

use elbowroom_bending::text::harmless;
use elbowroom_exchange::{Document, Reader, dxf, step};

use super::parts::{part, system};

/// Numbers that look drawn but are the same on every run.
struct Draw(u64);

impl Draw {
    fn below(&mut self, end: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % end.max(1) as u64) as usize
    }

    /// Bytes spoilt once.
    fn spoilt(&mut self, bytes: &[u8]) -> Vec<u8> {
        let mut bytes = bytes.to_vec();
        let (at, other) = (self.below(bytes.len()), self.below(bytes.len()));
        match self.below(9) {
            0 => bytes.truncate(at),
            1 => bytes[at] = self.below(256) as u8,
            2 => bytes[at] ^= 1 << self.below(8),
            3 => drop(bytes.drain(at.min(other)..at.min(other) + self.below(30).min(bytes.len() - at.max(other)))),
            4 => {
                let put = [&b"("[..], b")", b"'", b"#", b";", b",", b"$", b"*", b"\n", b"/*", b"\0", b"1e308", b"-1"];
                let put = put[self.below(put.len())];
                bytes.splice(at..at, put.iter().copied());
            }
            5 => {
                let length = self.below(400).min(bytes.len() - at);
                let copied = bytes[at..at + length].to_vec();
                bytes.splice(other..other, copied);
            }
            6 => bytes.swap(at, other),
            7 => {
                // Another number in place of one.
                let digits: Vec<usize> = (0..bytes.len()).filter(|at| bytes[*at].is_ascii_digit()).collect();
                let at = digits[self.below(digits.len())];
                bytes[at] = b'0' + self.below(10) as u8;
            }
            _ => {
                // Two lines exchanged.
                let mut lines: Vec<&[u8]> = bytes.split(|byte| *byte == b'\n').collect();
                let (one, two) = (self.below(lines.len()), self.below(lines.len()));
                lines.swap(one, two);
                bytes = lines.join(&b'\n');
            }
        }
        bytes
    }
}

#[test]
fn spoilt_files_are_refused_in_words_or_read_as_what_they_are() {
    let tube = part(&[(200.0, 0.0, 90.0, 90.5), (0.0, 45.0, 180.0, 90.5), (120.0, 45.0, 30.0, 90.5)], 150.0);
    let mut other = part(&[(100.0, 0.0, 45.0, 90.5)], 150.0);
    other.name = "Tail".into();
    let whole = system(vec![tube, other]);
    let solid = step::write(&whole, "a").unwrap().into_bytes();
    let drawing = dxf::write(&Document::System(Box::new(whole)), "a").unwrap();
    // Of the drawing the part that counts, so that most changes are felt.
    let end = drawing.find("POLYLINE").unwrap();
    let drawing =
        format!("{}0\nENDSEC\n0\nEOF\n", drawing[..end].trim_end().trim_end_matches('0').trim_end().to_owned() + "\n");
    let kinds: [(&str, Reader, Vec<u8>); 2] = [("step", step::read, solid), ("dxf", dxf::read, drawing.into_bytes())];
    let mut draw = Draw(0x2545_f491_4f6c_dd1d);
    for (kind, read, bytes) in kinds {
        read(&bytes, "a").unwrap();
        let mut refused = 0;
        for round in 0..3000 {
            let mut spoilt = draw.spoilt(&bytes);
            if round % 4 == 0 && !spoilt.is_empty() {
                spoilt = draw.spoilt(&spoilt);
            }
            let began = Instant::now();
            let read = read(&spoilt, "a");
            // A thousand times what it takes: this is no stopwatch, only an end.
            assert!(began.elapsed() < Duration::from_secs(20), "{kind} takes for ever");
            let Err(problem) = read else { continue };
            refused += 1;
            let said = problem.to_string();
            assert_eq!(harmless(&said), said);
            assert!(!problem.what.trim().is_empty() && !problem.right.trim().is_empty(), "{kind}: {said}");
            assert!(said.len() < 3000, "{kind}: endless: {said}");
        }
        assert!(refused > 500, "{kind}: only {refused} were refused");
    }
}

/// A tube is never read as another one without a word: one figure of a solid spoilt at a time.
#[test]
fn a_solid_with_one_wrong_figure_is_never_another_tube_without_a_word() {
    let tube = part(&[(200.0, 0.0, 90.0, 90.5), (70.0, 45.0, 30.0, 90.5)], 150.0);
    let text = step::write(&system(vec![tube.clone()]), "a").unwrap();
    let usual = step::read(text.as_bytes(), "a").unwrap();
    let mut wrong = Vec::new();
    for (number, line) in text.lines().enumerate() {
        let is_shape = ["CARTESIAN_POINT", "DIRECTION(", "CIRCLE", "SURFACE('", "ORIENTED_EDGE", "EDGE_CURVE"];
        if !is_shape.iter().any(|kind| line.contains(kind)) {
            continue;
        }
        for (from, to) in
            [("0.0", "1.0"), ("1.0", "0.5"), ("30.15", "31.15"), ("90.5", "92.5"), (".T.", ".F."), (".F.", ".T.")]
        {
            for (at, _) in line.match_indices(from) {
                let spoilt_line = format!("{}{to}{}", &line[..at], &line[at + from.len()..]);
                let lines: Vec<&str> =
                    text.lines().enumerate().map(|(n, line)| if n == number { &spoilt_line } else { line }).collect();
                if let Ok(read) = step::read((lines.join("\n") + "\n").as_bytes(), "a")
                    && read.document != usual.document
                    && read.notes == usual.notes
                {
                    wrong.push(format!("{line} -> {spoilt_line}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} read as another tube without a word:\n{}", wrong.len(), wrong.join("\n"));
}
