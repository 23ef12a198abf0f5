//! Every kind of file, spoilt in the ways in which people, programs and disks spoil files: no panic, a quick end, and a
//! refusal that names the line, what stands there and what would be right, in plain words that do nothing.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::{BTreeMap, BTreeSet};
use std::time::{Duration, Instant};

use crate::jargon::JARGON;
use elbowroom_bending::text::harmless;
use elbowroom_exchange::points_table;
use elbowroom_geometry::units::{LengthUnit, format_any};
use elbowroom_workbench::file::{
    BUILT_IN_SHOP_TEXT, FileProblem, demo_parts, read_materials, read_part, read_recovery, read_settings, read_shop,
    read_system, write_system,
};
use elbowroom_workbench::measured_table::{Kind, read_measured};

/// Words of which a sentence that says what would be right has one.
const RIGHT: [&str; 16] = [
    "must",
    "write ",
    "fields here are",
    "commas part",
    "comma parts",
    "take a whole copy",
    "ends with",
    "begins with",
    "between round",
    "compare it with",
    "remove one",
    "leave it empty",
    "a number such as",
    "a colon stands",
    "needs at least two",
    "needs its ",
];

/// Words that say that nothing stands there.
const NOTHING: [&str; 10] = [
    "missing",
    "too early",
    "twice",
    "empty",
    "only one",
    "no points",
    "nothing",
    "there are ",
    "the number of ",
    "at least",
];

/// What stands where a number stood.
const IN_PLACE: [&str; 26] = [
    "60,3",
    "-1,5",
    "hello",
    "\"5\"",
    "'5'",
    "",
    "-",
    "--5",
    "1.2.3",
    "1e300",
    "1e999",
    "-1e999",
    "99999999999999999999",
    "NaN",
    "inf",
    "-inf",
    "0x1F",
    "1_000",
    "5 mm",
    "½",
    "true",
    "(1, 2)",
    "[1]",
    "#",
    "1e",
    ".",
];

/// What is put in between.
const BETWEEN: [&str; 16] = [
    "\0",
    "\u{1b}[2J",
    "\u{1b}]52;c;ZQ==\u{7}",
    "\u{9b}31m",
    "\n",
    "\r",
    "\r\n",
    "\t",
    "\u{202e}",
    "\u{200b}",
    "\u{feff}",
    "\u{2028}",
    "\"",
    "\\",
    ",",
    "/*",
];

type Reader = fn(&str) -> Result<(), FileProblem>;

const SETTINGS: &str = "// What Elbowroom remembers.\n(\n    dark: true,\n    scale: 1.25,\n    bench_open: false,\n    \
    hints_seen: true,\n    recent: [\n        \"/home/a/part.ron\",\n        \"b.csv\",\n    ],\n)\n";
const ROWS: &str = "straight_mm,rotation_deg,angle_deg\n200,0,91\n150.5,-45,30\n120\n";

fn measured(text: &str) -> Result<(), FileProblem> {
    let read = read_measured(text, Kind::Points, LengthUnit::Millimetre);
    // As window and command line tell it.
    read.map(drop).map_err(|problem| FileProblem::on_line("a", problem.line, problem.what, ""))
}

/// Each kind of file with its reader and sound texts of it.
fn kinds() -> Vec<(&'static str, Reader, Vec<String>)> {
    let museum = |name: &str| {
        std::fs::read_to_string(format!("{}/../../tests/museum/{name}.ron", env!("CARGO_MANIFEST_DIR"))).unwrap()
    };
    let demos: Vec<_> = demo_parts().collect();
    let mut parts: Vec<String> = demos.iter().map(|demo| demo.text().to_owned()).collect();
    parts.extend(["part-v1-bends", "part-v1-pieces", "part-v1-vertices"].map(museum));
    let inside = |text: &str| text.lines().filter(|line| !line.starts_with("//")).collect::<Vec<_>>().join("\n    ");
    let recovery = |part: &String| {
        format!("(\n    format: \"elbowroom-recovery/1\",\n    file: \"/a/b.ron\",\n    part: {},\n)\n", inside(part))
    };
    let systems: Vec<String> = parts[..4].iter().map(|text| write_system(&read_system(text, "a").unwrap())).collect();
    let systems = [systems, vec![museum("system-v1"), museum("system-v2")]].concat();
    let of_system = |version: u8, text: &str| {
        format!(
            "(\n    format: \"elbowroom-recovery/{version}\",\n    file: \"/a/b.ron\",\n    system: {},\n)\n",
            inside(text)
        )
    };
    let mut recoveries: Vec<String> = parts.iter().map(recovery).collect();
    recoveries.push(of_system(2, &museum("system-v1")));
    let held = "file: \"/a/b.ron\",\n    held: [(length: 1024, fnv_1a: 9625390261332436968)],\n";
    recoveries.extend(systems.iter().map(|text| of_system(3, text).replacen("file: \"/a/b.ron\",\n", held, 1)));
    let tables: Vec<String> = demos
        .iter()
        .filter_map(|demo| points_table::of_part(&demo.read().unwrap()).ok())
        .map(|path| points_table::write(&path))
        .collect();
    let mut pieces = tables.clone();
    pieces.extend([ROWS.to_owned(), "0\t0\t0\n250,5\t1\t0\n250\t310\t40\n".to_owned(), "0 0 0\n1 2 3".to_owned()]);
    vec![
        ("part", |text| read_part(text, "a").map(drop), parts),
        ("system", |text| read_system(text, "a").map(drop), systems),
        ("shop", |text| read_shop(text, "a").map(drop), vec![BUILT_IN_SHOP_TEXT.to_owned(), museum("shop-v1")]),
        (
            "materials",
            |text| read_materials(text, "a").map(drop),
            vec![include_str!("../../../assets/materials.ron").to_owned()],
        ),
        ("settings", |text| read_settings(text, "a").map(drop), vec![SETTINGS.to_owned()]),
        ("recovery", |text| read_recovery(text, "a").map(drop), recoveries),
        ("points table", |text| points_table::read(text, "a").map(drop), tables),
        ("measured table", measured, pieces),
    ]
}

/// Numbers that look drawn but are the same on every run.
struct Draw(u64);

impl Draw {
    fn below(&mut self, end: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % end.max(1) as u64) as usize
    }

    fn one_of<'a, T: ?Sized>(&mut self, of: &[&'a T]) -> &'a T {
        of[self.below(of.len())]
    }

    fn place(&mut self, text: &str) -> usize {
        let at = self.below(text.len() + 1);
        (at..=text.len()).find(|at| text.is_char_boundary(*at)).unwrap()
    }

    /// A text spoilt once.
    fn spoilt(&mut self, text: &str) -> String {
        let lines: Vec<&str> = text.split('\n').collect();
        let line = self.below(lines.len());
        let with_lines = |change: &dyn Fn(&mut Vec<&str>)| {
            let mut lines = lines.clone();
            change(&mut lines);
            lines.join("\n")
        };
        match self.below(9) {
            0 | 1 => self.other_number(text),
            2 => with_lines(&|lines| lines.insert(line, lines[line])),
            3 => with_lines(&|lines| {
                lines.remove(line);
            }),
            4 => text[..self.place(text)].to_owned(),
            5 => {
                let at = self.place(text);
                format!("{}{}{}", &text[..at], self.one_of(&BETWEEN), &text[at..])
            }
            6 => {
                let at = self.place(text);
                let gone: usize = text[at..].chars().take(self.below(20)).map(char::len_utf8).sum();
                format!("{}{}", &text[..at], &text[at + gone..])
            }
            7 => {
                let other = self.below(lines.len());
                with_lines(&|lines| lines.swap(line, other))
            }
            _ => {
                let sign = self.one_of(&["(", ")", "[", "]", ":", ",", "\"", ";", ".", "-", "x", "{", "}", "//", "é"]);
                let at = self.place(text);
                let rest = text[at..].chars().next().map_or(0, char::len_utf8);
                format!("{}{sign}{}", &text[..at], &text[at + rest..])
            }
        }
    }

    fn other_number(&mut self, text: &str) -> String {
        let digit = |at: usize| text.as_bytes().get(at).is_some_and(u8::is_ascii_digit);
        let starts: Vec<usize> = (0..text.len())
            .filter(|at| {
                digit(*at)
                    && text.is_char_boundary(*at)
                    && (*at == 0 || !digit(at - 1) && !text[..*at].ends_with(['.', '-', '_']))
            })
            .filter(|at| !text[..*at].ends_with(|sign: char| sign.is_alphabetic() || sign == '/'))
            .collect();
        let Some(&start) = starts.get(self.below(starts.len())) else { return text.to_owned() };
        let end = start + text[start..].find(|sign: char| !(sign.is_ascii_digit() || sign == '.')).unwrap_or(0);
        format!("{}{}{}", &text[..start], self.one_of(&IN_PLACE), &text[end.max(start)..])
    }
}

/// What is wrong with how a problem is told; empty where nothing is.
fn amiss(problem: &FileProblem, text: &str) -> String {
    let said = problem.to_string();
    let mut wrong = String::new();
    let mut note = |bad: bool, what: &str| {
        if bad {
            wrong += &format!("[{what}] ")
        }
    };
    note(problem.line.is_none(), "no line");
    note(harmless(&said) != said, "acts");
    note(problem.what.trim().is_empty(), "nothing said");
    note(!RIGHT.iter().any(|word| said.contains(word)), "nothing right");
    note(JARGON.iter().any(|word| said.contains(word)), "jargon");
    note(!NOTHING.iter().any(|word| said.contains(word)) && !quotes(problem, text), "not what stands there");
    note(said.len() > 400, "endless");
    wrong
}

/// Whether a problem tells what stands on its line, or in the field that ends there.
fn quotes(problem: &FileProblem, text: &str) -> bool {
    const LONGEST_FIELD: usize = 20;
    const PLAIN: [&str; 16] =
        ["a", "of", "is", "in", "the", "no", "it", "to", "at", "and", "there", "field", "number", "mm", "must", "be"];
    let last = problem.line.unwrap_or(1);
    let lines: Vec<_> = text.lines().take(last).skip(last.saturating_sub(LONGEST_FIELD)).map(harmless).collect();
    let words = |text: &str| -> BTreeSet<String> {
        let of_word = |sign: char| sign.is_alphanumeric() || "_.-+".contains(sign);
        let words = text.split(|sign| !of_word(sign)).filter(|word| !word.is_empty() && !PLAIN.contains(word));
        words.map(|word| word.replace('_', "").parse::<f64>().map_or(word.to_owned(), format_any)).collect()
    };
    let said = words(&problem.what);
    // A sign or a word of ours that is in the way stands between quotes, and a field that is not known behind its noun.
    let sign = problem.what.split(['\u{201c}', '\u{201d}', '"']).nth(1);
    let sign = sign.or(problem.what.strip_prefix("there is no field "));
    lines.iter().any(|line| !words(line).is_disjoint(&said) || sign.is_some_and(|sign| line.contains(sign)))
}

#[test]
fn files_spoilt_in_any_way_are_refused_in_plain_words_with_their_line() {
    let mut draw = Draw(0x2545_f491_4f6c_dd1d);
    let mut bad: BTreeMap<String, String> = BTreeMap::new();
    for (kind, read, texts) in kinds() {
        for text in &texts {
            assert!(read(text).is_ok(), "{kind}: {:?}\n{text}", read(text));
        }
        let mut refused = 0;
        for round in 0..1500 {
            let mut text = draw.spoilt(&texts[round % texts.len()]);
            if round % 5 == 0 {
                text = draw.spoilt(&text);
            }
            let began = Instant::now();
            let read = read(&text);
            // A thousand times what it takes: this is no stopwatch, only an end.
            assert!(began.elapsed() < Duration::from_secs(20), "{kind} takes for ever:\n{text}");
            let Err(problem) = read else { continue };
            refused += 1;
            let wrong = amiss(&problem, &text);
            if !wrong.is_empty() {
                let class: String = problem.what.chars().filter(|sign| sign.is_alphabetic() || *sign == ' ').collect();
                bad.entry(format!("{kind} {wrong}{}", class.chars().take(40).collect::<String>()))
                    .or_insert_with(|| problem.to_string());
            }
        }
        assert!(refused > 400, "{kind}: only {refused} were refused");
    }
    let told: Vec<_> = bad.into_iter().map(|(class, said)| format!("{class}\n    {said:?}")).collect();
    assert!(told.is_empty(), "{} ways of saying it badly:\n{}", told.len(), told.join("\n"));
}
