//! What the table shows.

use std::fmt;
use std::sync::Arc;

use elbowroom_bending::{Edit, End, Hold, NodeId, Numbering, Part, Severity, Shop};
use elbowroom_geometry::units::{LengthUnit, format_number, parse_angle, parse_length};
use elbowroom_geometry::{BendRow, HandleId, Length};
use elbowroom_workbench::{Selection, Table, Target, Workbench};

use super::points::{PathPoint, Spot, points};
use super::stays::{Stays, in_words};
use super::{Cell, CellError, Column, Legs};

/// One bend with the straight before it, and how it is marked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// Straight, rotation, angle and radius.
    pub bend: BendRow,
    /// How the row is marked.
    pub marks: Marks,
}

/// How a row is marked.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Marks {
    /// The worst finding on the bend or on the straight before it.
    pub severity: Option<Severity>,
    /// Whether the bend is selected.
    pub bend_selected: bool,
    /// Whether the straight is selected.
    pub straight_selected: bool,
    /// Whether either lies under the pointer, here or elsewhere.
    pub hovered: bool,
}

/// What the table shows.
#[derive(Clone, Debug)]
pub struct Model {
    /// Whether rows or points are shown.
    pub table: Table,
    /// The points with their marks; empty where rows are shown.
    pub points: Vec<(PathPoint, Marks)>,
    /// The bends.
    pub rows: Vec<Row>,
    /// The straight behind the last bend.
    pub tail: Length,
    /// How the tail is marked.
    pub tail_marks: Marks,
    /// What stays where it is.
    pub stays: Stays,
    /// How far the legs of a U lie apart; none where there is no U.
    pub legs: Option<Legs>,
    /// The ids of the bends and straights that are shown.
    pub nodes: Numbering,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// The part without any preview, against which a typed value is tried.
    pub part: Arc<Part>,
    /// The shop, for the radius and straight of a new bend.
    pub shop: Arc<Shop>,
    /// What lies under the pointer.
    pub hover: Option<Target>,
    /// The row to bring into view when it changes; a row of the table that is shown.
    pub primary_row: Option<usize>,
    /// Whether a question waits, so that the clipboard is none of the table's business.
    pub question_open: bool,
}

impl Model {
    /// The table of the part that is shown.
    pub fn of(workbench: &Workbench) -> Self {
        let solved = workbench.solved();
        let path = &solved.form.path;
        let mut marks = vec![Marks::default(); path.rows().len() + 1];
        for finding in &solved.findings {
            for row in finding.places().filter_map(|place| place.bend.or(place.straight)) {
                with(&mut marks, row, |marks| marks.severity = marks.severity.max(Some(finding.severity)));
            }
        }
        for target in workbench.selection().targets() {
            match *target {
                Target::Straight(index) => with(&mut marks, index, |marks| marks.straight_selected = true),
                other => {
                    if let Some(index) = other.bend() {
                        with(&mut marks, index, |marks| marks.bend_selected = true);
                    }
                }
            }
        }
        if let Some(row) = workbench.hover().and_then(row_of) {
            with(&mut marks, row, |marks| marks.hovered = true);
        }
        let table = workbench.screen().table;
        let points = match table {
            Table::Rows => Vec::new(),
            Table::Points => marked_points(workbench, &marks),
        };
        let primary_row = match table {
            Table::Rows => primary_row(workbench.selection()),
            Table::Points => workbench.selection().primary().and_then(|target| point_row(&points, target)),
        };
        let tail_marks = marks.pop().unwrap_or_default();
        Self {
            table,
            points,
            rows: path.rows().iter().zip(marks).map(|(bend, marks)| Row { bend: *bend, marks }).collect(),
            tail: path.tail(),
            tail_marks,
            stays: Stays::of(workbench),
            legs: Legs::of(workbench),
            nodes: solved.nodes.clone(),
            unit: workbench.part().units,
            part: Arc::clone(workbench.committed_part()),
            shop: Arc::clone(workbench.shop()),
            hover: workbench.hover(),
            primary_row,
            question_open: workbench.screen().question.is_some(),
        }
    }

    /// How many bends there are.
    pub fn bends(&self) -> usize {
        self.rows.len()
    }

    /// How many rows the table that is shown has.
    pub fn lines(&self) -> usize {
        match self.table {
            Table::Rows => self.bends() + 1,
            Table::Points => self.points.len(),
        }
    }

    /// The marks of a row, the tail's included.
    pub fn marks(&self, row: usize) -> Marks {
        match self.table {
            Table::Rows => self.rows.get(row).map_or(self.tail_marks, |row| row.marks),
            Table::Points => self.points.get(row).map(|(_, marks)| *marks).unwrap_or_default(),
        }
    }

    /// What is held of the place that a row is about; of the tail's row nothing is.
    pub fn hold(&self, row: usize) -> Hold {
        let id = match (self.table, self.points.get(row)) {
            (Table::Points, Some((point, _))) => match point.spot {
                Spot::Handle(HandleId::Start) => self.nodes.start(),
                Spot::Handle(HandleId::Finish) => self.nodes.finish(),
                Spot::Handle(handle) => handle.bend().map_or(NodeId::NOWHERE, |bend| self.nodes.bend(bend)),
                Spot::Vertex(vertex) => self.nodes.vertex(vertex),
            },
            _ => self.nodes.bend(row),
        };
        self.part.keep.of(id)
    }

    /// Whether a row is selected as a whole.
    pub fn is_selected(&self, row: usize) -> bool {
        let marks = self.marks(row);
        if self.is_tail(row) { marks.straight_selected } else { marks.bend_selected }
    }

    /// Whether a row is the straight behind the last bend.
    pub fn is_tail(&self, row: usize) -> bool {
        self.table == Table::Rows && row == self.bends()
    }

    /// What a row is about.
    pub fn target(&self, row: usize) -> Target {
        match (self.table, self.points.get(row)) {
            (Table::Points, Some((point, _))) => point.spot.target(),
            _ if self.is_tail(row) => Target::Straight(row),
            _ => Target::Bend(row),
        }
    }

    /// What a row is called.
    pub fn name(&self, row: usize) -> String {
        match self.points.get(row) {
            Some((point, _)) => point.spot.name(),
            None if self.is_tail(row) => "finish".to_owned(),
            None => format!("bend {}", row + 1),
        }
    }

    /// The same where there is little room.
    pub fn number(&self, row: usize) -> String {
        match self.points.get(row) {
            Some((point, _)) => point.spot.short(),
            None if self.is_tail(row) => "finish".to_owned(),
            None => (row + 1).to_string(),
        }
    }

    /// What a screen reader calls a cell.
    pub fn label(&self, cell: Cell) -> String {
        match (cell.column, self.points.get(cell.row)) {
            (Column::Clr, Some((point, _))) => match point.spot.bend() {
                Some(bend) => format!("bend {} CLR", bend + 1),
                None => format!("{} CLR", point.spot.name()),
            },
            _ => format!("{} {}", self.name(cell.row), cell.column.name()),
        }
    }

    /// Whether the table has this cell. The first bend has no rotation to type, and no end a radius.
    pub fn exists(&self, cell: Cell) -> bool {
        let (row, bends) = (cell.row, self.bends());
        match (self.table, cell.column) {
            (Table::Rows, Column::Straight) => row <= bends,
            (Table::Rows, Column::Rotation) => row > 0 && row < bends,
            (Table::Rows, Column::Angle | Column::Clr) => row < bends,
            (Table::Points, Column::X | Column::Y | Column::Z) => row < self.points.len(),
            (Table::Points, Column::Clr) => self.points.get(row).is_some_and(|(point, _)| point.clr.is_some()),
            (Table::Rows, Column::X | Column::Y | Column::Z)
            | (Table::Points, Column::Straight | Column::Rotation | Column::Angle) => false,
        }
    }

    /// The bends that are selected, in order along the tube.
    pub fn selected_bends(&self) -> Vec<usize> {
        (0..self.bends()).filter(|row| self.rows[*row].marks.bend_selected).collect()
    }

    /// The text that a cell shows, without its unit; empty for a cell that does not exist.
    pub fn text(&self, cell: Cell) -> String {
        if !self.exists(cell) {
            return String::new();
        }
        if let Some((point, _)) = self.points.get(cell.row) {
            let mm = point.coordinate_mm(cell.column).or_else(|| point.clr.map(Length::mm));
            return mm.map_or_else(String::new, |mm| self.length(Length::from_mm(mm)));
        }
        let Some(row) = self.rows.get(cell.row) else { return self.length(self.tail) };
        match cell.column {
            Column::Straight => self.length(row.bend.straight),
            Column::Rotation => format_number(row.bend.rotation.degrees(), 1),
            Column::Angle => format_number(row.bend.angle.degrees(), 1),
            _ => self.length(row.bend.clr),
        }
    }

    /// The edit that a text typed into a cell asks for.
    ///
    /// # Errors
    /// Says what cannot be read, at which character, or why the point does not go there.
    pub fn edit(&self, cell: Cell, text: &str) -> Result<Edit, CellError> {
        let length = || parse_length(text, self.unit).map_err(CellError::Unreadable);
        let angle = || parse_angle(text).map_err(CellError::Unreadable);
        if let (Some(axis), Some((point, _))) = (cell.column.axis(), self.points.get(cell.row)) {
            return point.put(axis, length()?, &self.nodes, self.unit);
        }
        let bend = match self.points.get(cell.row) {
            Some((point, _)) => point.spot.bend().map(|bend| self.nodes.bend(bend)),
            None => Some(self.nodes.bend(cell.row)),
        };
        let bend = bend.unwrap_or(NodeId::NOWHERE);
        let several = self.selected_with(bend);
        Ok(match cell.column {
            Column::Straight => Edit::SetStraight(self.nodes.straight(cell.row), length()?),
            Column::Rotation => Edit::SetRotation(bend, angle()?),
            Column::Angle if several.len() > 1 => {
                if !self.part.keep.held().is_empty() {
                    // What gives way to one of them could undo another.
                    let why = "while something is held, angles are set one by one: select a single bend, or free what is held";
                    return Err(CellError::Refused(why.to_owned()));
                }
                let to = angle()?;
                let label = format!("set angle of {} bends to {}\u{b0}", several.len(), format_number(to.degrees(), 1));
                Edit::Together(label, several.into_iter().map(|bend| Edit::SetAngle(bend, to)).collect())
            }
            Column::Angle => Edit::SetAngle(bend, angle()?),
            _ if several.len() > 1 => {
                let to = length()?;
                let label = format!("set CLR of {} bends to {}", several.len(), self.unit.shown(to.mm()));
                Edit::Together(label, several.into_iter().map(|bend| Edit::SetClr(bend, to)).collect())
            }
            _ => Edit::SetClr(bend, length()?),
        })
    }

    /// The bends that a figure typed for one of them sets: all that are selected where it is among them, else it alone.
    fn selected_with(&self, bend: NodeId) -> Vec<NodeId> {
        let selected: Vec<NodeId> = self.selected_bends().into_iter().map(|bend| self.nodes.bend(bend)).collect();
        if selected.contains(&bend) { selected } else { vec![bend] }
    }

    fn length(&self, length: Length) -> String {
        format_number(length.mm() / self.unit.in_mm(), self.unit.decimals())
    }
}

fn with(marks: &mut [Marks], index: usize, change: impl FnOnce(&mut Marks)) {
    if let Some(marks) = marks.get_mut(index) {
        change(marks);
    }
}

fn row_of(target: Target) -> Option<usize> {
    match target {
        Target::Straight(index) => Some(index),
        other => other.bend(),
    }
}

/// The points, marked as their bends are; where an arc ends as where it begins.
fn marked_points(workbench: &Workbench, of_bends: &[Marks]) -> Vec<(PathPoint, Marks)> {
    let solved = workbench.solved();
    let (selection, hover) = (workbench.selection(), workbench.hover());
    let mark = |point: PathPoint| {
        let target = point.spot.target();
        let mut marks = match point.spot.bend() {
            Some(bend) => of_bends.get(bend).copied().unwrap_or_default(),
            None => Marks { bend_selected: selection.contains(target), ..Marks::default() },
        };
        marks.hovered =
            hover.is_some_and(|hover| hover == target || hover.bend().is_some() && hover.bend() == target.bend());
        (point, marks)
    };
    points(workbench.part(), &solved.form).into_iter().map(mark).collect()
}

/// The row of a target among points.
fn point_row(points: &[(PathPoint, Marks)], target: Target) -> Option<usize> {
    points.iter().position(|(point, _)| {
        let of_handle = matches!((point.spot, target), (Spot::Handle(one), Target::Handle(other)) if one == other);
        of_handle || point.spot.target() == target || target.bend().is_some() && point.spot.bend() == target.bend()
    })
}

fn primary_row(selection: &Selection) -> Option<usize> {
    selection.primary().and_then(row_of)
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let columns = Column::of(self.table);
        let heads = columns.map(Column::name);
        let first = if self.table == Table::Rows { "bend" } else { "point" };
        writeln!(formatter, "   {first}  {}  ({})", heads.join("  "), self.unit.symbol())?;
        for row in 0..self.lines() {
            let marks = self.marks(row);
            let number = if self.table == Table::Rows { self.number(row) } else { self.name(row) };
            let pointer = if marks.hovered { '>' } else { ' ' };
            let star = if marks.bend_selected { '*' } else { ' ' };
            write!(formatter, "{pointer}{star} {number}")?;
            for column in columns {
                let text = self.text(Cell::new(row, column));
                let star = if column == Column::Straight && marks.straight_selected { "*" } else { "" };
                if !text.is_empty() {
                    write!(formatter, "  {text}{star}")?;
                } else if !self.is_tail(row) {
                    write!(formatter, "  –")?;
                }
            }
            if !self.hold(row).is_nothing() {
                write!(formatter, "  ({})", in_words(self.hold(row)))?;
            }
            match marks.severity {
                Some(severity) => writeln!(formatter, "  [{}]", severity.word())?,
                None => writeln!(formatter)?,
            }
        }
        if self.stays.held() == 0 && self.stays.side == End::Finish {
            writeln!(formatter, "   towards the finish it stays")?;
        }
        self.legs.as_ref().map_or(Ok(()), |legs| legs.fmt(formatter))
    }
}
