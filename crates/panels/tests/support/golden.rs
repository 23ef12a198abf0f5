//! Compares a picture with the one that is kept, within one tolerance for all.

use std::fs::File;
use std::io::{BufReader, BufWriter};
use std::path::Path;

use super::raster::Picture;

/// A channel may differ by this much before its pixel counts as different: other processors round the
/// edges of letters otherwise.
const CHANNEL: u8 = 40;
/// So large a share of the pixels may be different.
const SHARE: f64 = 0.01;
/// With this variable set the picture that is kept is drawn anew, to be looked at and committed.
const BLESS: &str = "ELBOWROOM_DRAW_ANEW";

/// Holds a picture against the one that is kept in `tests/kept`.
pub fn check(name: &str, picture: &Picture) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kept").join(format!("{name}.png"));
    if std::env::var_os(BLESS).is_some() {
        write(&path, picture);
    }
    let fresh = Path::new(env!("CARGO_TARGET_TMPDIR")).join("pictures").join(format!("{name}.png"));
    write(&fresh, picture);
    let kept = read(&path).unwrap_or_else(|error| panic!("{}: {error}; set {BLESS}=1 to draw it", path.display()));
    assert_eq!((kept.width, kept.height), (picture.width, picture.height), "{name}: another size");
    let pixels = || kept.bytes.chunks_exact(3).zip(picture.bytes.chunks_exact(3));
    let differs = |(a, b): &(&[u8], &[u8])| a.iter().zip(*b).any(|(a, b)| a.abs_diff(*b) > CHANNEL);
    let share = pixels().filter(differs).count() as f64 / pixels().count() as f64;
    let (fresh, percent) = (fresh.display(), share * 100.0);
    assert!(
        share <= SHARE,
        "{percent:.1} % of {name} look different; compare {} with {fresh}, and set {BLESS}=1 if the new one is right",
        path.display()
    );
}

/// Writes a picture, making the folder if need be.
pub fn write(path: &Path, picture: &Picture) {
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    let file = BufWriter::new(File::create(path).unwrap());
    let mut encoder = png::Encoder::new(file, picture.width as u32, picture.height as u32);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::High);
    encoder.write_header().unwrap().write_image_data(&picture.bytes).unwrap();
}

fn read(path: &Path) -> Result<Picture, String> {
    let file = File::open(path).map_err(|error| error.to_string())?;
    let mut reader = png::Decoder::new(BufReader::new(file)).read_info().map_err(|error| error.to_string())?;
    let mut bytes = vec![0; reader.output_buffer_size().ok_or("too large")?];
    let info = reader.next_frame(&mut bytes).map_err(|error| error.to_string())?;
    bytes.truncate(info.buffer_size());
    Ok(Picture { width: info.width as usize, height: info.height as usize, bytes })
}
