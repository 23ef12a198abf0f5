//! What the panels remember from frame to frame that is neither part nor screen: half-typed text,
//! and what took a while to work out.

/// The state of every panel that has any. Belongs to the window; dropping it loses only half-typed text.
#[derive(Default)]
pub struct PanelState {
    /// Of the table of bends.
    pub rows: crate::rows::State,
    /// The findings in words.
    pub(crate) told: crate::told::State,
    /// Of the findings.
    pub findings: crate::findings::State,
    /// Of the page of the shop.
    pub shop: crate::shop::State,
    /// Of the sheet of springback.
    pub springback: crate::springback::State,
    /// Of the sheet of the first-off.
    pub first_off: crate::first_off::State,
    /// Of the list of tubes.
    pub tubes: crate::tubes::State,
    /// Of the command list.
    pub command_list: crate::command_list::State,
    /// Of the menu of what is selected.
    pub here_menu: crate::here_menu::State,
    /// Of what moves and turns by typed figures.
    pub placing: crate::placing::State,
    /// Of what stands around.
    pub around: crate::around::State,
    /// Of the bend program.
    pub program: crate::program::State,
    /// Of the view for the machine.
    pub at_machine: crate::at_machine::State,
    /// Of the comparison of tooling.
    pub tooling: crate::tooling::State,
}

/// The window keeps this in its world, which any thread may hold: what cannot go there does not compile here.
const _: () = {
    const fn any_thread_may_hold<T: Send + Sync + 'static>() {}
    any_thread_may_hold::<PanelState>();
};
