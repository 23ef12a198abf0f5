//! A number on the command line is refused where the same number in a file is, and taken where it is taken.

use super::support::Bench;

const VALUES: [&str; 24] = [
    "0", "-0.0", "5e-324", "1e-300", "0.005", "0.01", "0.05", "0.5", "1", "-1", "2", "30.15", "80", "180.0001",
    "359.99", "2000", "2000.1", "10000", "10000.1", "1e9", "1e300", "1e999", "NaN", "inf",
];

fn part(od: &str, wall: &str, clamp: &str) -> String {
    format!(
        "(format: \"elbowroom-part/1\", name: \"a\", tooling: (clamp_mm: {clamp}), \
         tube: (od_mm: {od}, wall_mm: {wall}, material: \"304 stainless\", seam: welded), \
         path: bends(bends: [(straight_mm: 300.0, rotation_deg: 0.0, angle_deg: 45.0, clr_mm: 90.5)], tail_mm: 300.0))"
    )
}

#[test]
fn command_line_and_file_agree_about_every_number() {
    let bench = Bench::new();
    bench.write("typed.ron", part("60.3", "2.0", "80.0"));
    let (mut refused, mut taken) = (0, 0);
    for value in VALUES {
        for (option, read) in [
            (format!("--tube={value}x2"), part(value, "2.0", "80.0")),
            (format!("--tube=60.3x{value}"), part("60.3", value, "80.0")),
            (format!("--clamp={value}"), part("60.3", "2.0", value)),
        ] {
            bench.write("read.ron", read);
            let typed = bench.run(&["check", "typed.ron", "--shop", "built-in", &option]);
            let read = bench.run(&["check", "read.ron", "--shop", "built-in"]);
            assert_eq!(typed.code, read.code, "{option}:\n{}\n{}", typed.err, read.err);
            if typed.code == Some(2) {
                refused += 1;
                assert!(typed.out.is_empty() && read.out.is_empty(), "{option}");
                assert!(typed.err.contains("such as") && read.err.contains("line 1"), "{}\n{}", typed.err, read.err);
            } else {
                taken += 1;
                assert_eq!(typed.out.replace("typed.ron", ""), read.out.replace("read.ron", ""), "{option}");
            }
        }
    }
    assert!(refused > 30 && taken > 10, "{refused} refused, {taken} taken");
}
