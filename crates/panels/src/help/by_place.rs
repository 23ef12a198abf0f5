//! What the mouse does, and the keys that go with it, by place.

/// Deeds and effects under one heading.
type Lines = &'static [(&'static str, &'static str)];

/// The places in reading order.
pub const BY_PLACE: [(&str, Lines); 3] = [
    (
        "In the scene",
        &[
            ("Click", "Selects; with Shift or Ctrl adds or takes out; beside the tube it lets go"),
            ("Drag beside the tube", "Draws a box that selects what lies in it; with Shift or Ctrl it adds"),
            ("Drag a handle", "Moves it in the plane of the view; of several that are selected, all of them"),
            ("Drag a straight", "Moves it with the vertices at both its ends"),
            ("X, Y or Z held", "Keeps the drag along that axis; with Shift, in the plane square to it"),
            ("Ctrl held", "Snaps to the grid, to round lengths and angles"),
            ("A number typed during a drag", "Sets it exactly; Enter takes it, Escape drops the drag"),
            ("Double click on a straight", "Adds a vertex there; held down, goes on to drag it"),
            ("Arrow keys", "Move what is selected by a step of the grid; with Shift by a tenth of one"),
            ("Click with the right button", "Opens a menu of what lies there"),
            ("Click on an axis in the corner", "Looks from there, in parallel; turning the view looks freely again"),
            ("Drag with the right or middle button", "Turns the view; with Shift moves it"),
            ("Wheel", "Zooms to the pointer"),
        ],
    ),
    (
        "On the blank strip",
        &[
            ("Drag the start of an arc", "Changes the straight before it"),
            ("Drag the end of an arc", "Changes the bend angle"),
            ("Alt held", "Drags without rounding"),
            ("Escape during a drag", "Drops it"),
            ("Ctrl and wheel", "Zooms to the pointer; wheel or drag then moves along the tube"),
            ("Double click", "Shows the whole blank"),
            ("Left, Right, Home, End", "Walk along the tube, once the strip has been clicked"),
            ("Plus, Minus", "Change the selected straight by 1 mm (1/16 in), or the selected bend by 1°"),
        ],
    ),
    (
        "In a field",
        &[
            ("60+12.5", "Small sums are worked out"),
            ("4 cm, 1 3/4\", 16 swg", "Any unit, fraction or gauge is understood"),
            ("Enter", "Takes what is typed"),
            ("Escape", "Brings back what was there"),
        ],
    ),
];
