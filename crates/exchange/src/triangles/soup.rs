//! What a reader takes out of a mesh file: points and triangles, and where in the file they stand.

use elbowroom_geometry::MOST_TRIANGLES;

use crate::error::TextError;

/// Points in the unit and axes of the file, triangles on them, and their places.
#[derive(Debug, Default)]
pub(super) struct Soup {
    pub points: Vec<[f64; 3]>,
    pub triangles: Vec<[u32; 3]>,
    pub places: Places,
}

/// On which line of a text each point stands; of other files nothing.
#[derive(Debug, Default)]
pub(super) struct Places {
    lines_of_points: Vec<u32>,
}

impl Places {
    /// The line that a refusal's field is about, such as `vertex 3, y`.
    pub fn line_of(&self, field: &str) -> Option<usize> {
        let number: usize = field.strip_prefix("vertex ")?.split(',').next()?.parse().ok()?;
        self.lines_of_points.get(number.checked_sub(1)?).map(|line| *line as usize)
    }
}

impl Soup {
    /// Takes a point that stands on a line.
    pub fn point_on(&mut self, line: usize, point: [f64; 3]) {
        self.points.push(point);
        self.places.lines_of_points.push(u32::try_from(line).unwrap_or(u32::MAX));
    }

    /// Takes a triangle.
    ///
    /// # Errors
    /// Where there are too many.
    pub fn triangle(&mut self, line: Option<usize>, corners: [u32; 3]) -> Result<(), TextError> {
        if self.triangles.len() >= MOST_TRIANGLES {
            let what = format!("there are more than {MOST_TRIANGLES} triangles");
            return Err(TextError { line, what, right: "thin the mesh out, or leave out what is far away".into() });
        }
        self.triangles.push(corners);
        Ok(())
    }

    /// The number of the next point.
    pub fn next_point(&self) -> u32 {
        u32::try_from(self.points.len()).unwrap_or(u32::MAX)
    }
}
