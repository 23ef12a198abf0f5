//! What each command does.

use elbowroom_bending::text::harmless_lines;
use elbowroom_bending::{Edit, Fault, Finding, NodeId, Place};

use crate::document::Way;
use crate::shelf::settings::within_scale;
use crate::{
    Command, Message, MessageKind, Question, Request, SelectMode, Selection, Sheet, Target, ViewCommand, Workbench,
};

impl Workbench {
    /// Does what was asked. Refusals become messages on the screen; nothing is lost. What would lose
    /// unsaved work asks first.
    pub fn perform(&mut self, command: Command) {
        self.hear();
        if !leaves_waiting(&command) {
            self.waiting = None;
        }
        if self.unsaved && loses_work(&command) && self.waits_for_save(&command) {
            return;
        }
        if self.unsaved && loses_work(&command) {
            self.drop_preview();
            self.screen.question = Some(Question::Unsaved { then: Box::new(command) });
        } else {
            self.carry_out(command);
        }
    }

    /// Does what was asked without asking back.
    pub(crate) fn carry_out(&mut self, command: Command) {
        match command {
            Command::Edit(edit) => self.edit(&edit),
            Command::EditSystem(edit) => self.edit_system(&edit),
            Command::AddTube => self.add_tube(),
            Command::Preview(edit) => self.show_preview(&edit),
            Command::CommitPreview => self.commit_preview(),
            Command::DropPreview => self.drop_preview(),
            Command::Undo => self.travel(Way::Back),
            Command::Redo => self.travel(Way::Forth),
            Command::Select(target, mode) => self.select(target, mode),
            Command::SelectThese(targets, mode) => self.select_these(&targets, mode),
            Command::SelectAll => {
                let nodes = &self.solved().nodes;
                let bends = (0..nodes.bends()).map(|bend| Target::Bend(nodes.bend(bend)));
                let all = Selection::of(bends.collect());
                self.hold(&all);
            }
            Command::SelectNothing => self.select_nothing(),
            Command::Escape => self.escape(),
            Command::Hover(target) => self.hover = target.filter(|target| self.has(*target)),
            Command::PointAtTube(tube) => self.tube_hover = tube.filter(|tube| self.can_turn_to(*tube)),
            Command::PointAtChange(edit) => self.propose(edit),
            Command::GoToFinding(index) => self.go_to_finding(index),
            Command::MoveSelection(motion) => self.move_selection(&motion),
            Command::TogglePlacing => self.screen.placing_open = !self.screen.placing_open,
            Command::ToggleAround => self.screen.around_open = !self.screen.around_open,
            Command::ToggleMeasuring => {
                self.screen.measuring_open = !self.screen.measuring_open;
                if self.screen.measuring_open {
                    self.measure_selected();
                }
            }
            Command::Measure(measured) => self.measured = measured,
            Command::MeasureSelected => self.measure_selected(),
            Command::DeleteSelection => self.delete_selection(),
            Command::ChangeForm => self.edit(&Edit::ChangeForm),
            Command::New => self.begin(),
            Command::AskOpen => self.requests.push(Request::AskOpen),
            Command::Open(path) => self.open(&path),
            Command::OpenDemo(name) => self.open_demo(&name),
            Command::Save => match self.file.clone() {
                Some(file) => self.save(&file, None),
                None => self.requests.push(Request::AskSaveAs),
            },
            Command::AskSaveAs => self.requests.push(Request::AskSaveAs),
            Command::SaveAs(path) => self.save_as(&path),
            Command::AskExport => self.requests.push(Request::AskExport),
            Command::Export(path) => self.export(&path),
            Command::AskShop => self.requests.push(Request::AskShop),
            Command::UseShop(path) => self.use_shop(&path),
            Command::UseOwnShop => self.use_own_shop(),
            Command::MakeOwnShop => self.make_own_shop(),
            Command::EditShop(edit) => self.edit_shop(&edit),
            Command::SetMeasurement(measurement) => self.set_measurement(measurement),
            Command::AddPiece(measurement) => self.add_piece(measurement),
            Command::AskMeasurement => self.requests.push(Request::AskMeasurement),
            Command::OpenMeasurement(path) => self.open_measurement(&path),
            Command::AskObstacle(unit, up) => self.requests.push(Request::AskObstacle(unit, up)),
            Command::AddObstacleMesh(path, unit, up) => self.add_obstacle_mesh(&path, unit, up),
            Command::ClearMeasurement => self.remove_piece(),
            Command::TakeAsMeasured(piece, taken) => self.take_as_measured(piece, taken),
            Command::MagnifyGhost(times) => self.magnify_ghost(times),
            Command::TakeBackRecovery => self.take_back_recovery(),
            Command::DiscardRecovery => self.discard_recovery(),
            Command::View(view) => self.requests.push(Request::View(view)),
            Command::ShowSheet(sheet) => self.screen.sheet = sheet,
            Command::ShowTable(table) => {
                self.screen.sheet = Sheet::Bends;
                self.screen.table = table;
            }
            Command::ToggleBench => {
                self.screen.bench_open = !self.screen.bench_open;
                self.remember();
            }
            Command::ToggleAtMachine => self.toggle_at_machine(),
            Command::StepOn => self.step_on(),
            Command::StepBack => self.step_back(),
            Command::BeginTube => self.begin_tube(),
            Command::FollowChange => self.follow_change(),
            Command::ToggleNumbers => self.screen.numbers_shown = !self.screen.numbers_shown,
            Command::ToggleShop => self.screen.shop_open = !self.screen.shop_open,
            Command::ToggleTubes => self.screen.tubes_open = !self.screen.tubes_open,
            Command::NameTube => {
                self.screen.tubes_open = true;
                self.screen.names_asked += 1;
            }
            Command::ToggleCommandList => self.screen.command_list_open = !self.screen.command_list_open,
            Command::ToggleHelp => self.screen.help_open = !self.screen.help_open,
            Command::ShowManual(fault) => self.screen.manual = Some(fault),
            Command::CloseManual => self.screen.manual = None,
            Command::SetTheme(theme) => {
                self.screen.theme = theme;
                self.remember();
            }
            Command::SetScale(scale) => match within_scale(scale) {
                Some(scale) => {
                    self.screen.scale = scale;
                    self.remember();
                }
                None => self.refuse("The interface scale must be a number from 0.8 to 2.0."),
            },
            Command::TellCopied(said) => self.done(said),
            Command::DismissMessage => self.screen.message = None,
            Command::Deal(about, deal) => self.deal(&about, deal),
            Command::DismissHints => {
                self.screen.hints_shown = false;
                self.settings.hints_seen = true;
                self.remember();
            }
            Command::Quit => self.leave(),
            Command::AnswerSave => self.answer_save(),
            Command::AnswerDiscard => self.answer_discard(),
            Command::AnswerOtherName => self.answer_other_name(),
            Command::AnswerCancel => self.leave_question(),
        }
    }

    /// Says that something could not be done.
    pub(crate) fn refuse(&mut self, text: impl Into<String>) {
        self.say(MessageKind::Refused, text.into());
    }

    /// Says that an edit could not be made; the next one that can takes the message away.
    pub(crate) fn refuse_edit(&mut self, text: impl Into<String>) {
        self.refuse(text);
        self.message_is_of_edit = true;
    }

    /// Says that something went well.
    pub(crate) fn done(&mut self, text: impl Into<String>) {
        self.say(MessageKind::Done, text.into());
    }

    pub(crate) fn say(&mut self, kind: MessageKind, text: String) {
        // Names of files and parts are told as text, whatever they hold.
        let text = harmless_lines(&text).into_owned();
        self.screen.message = Some(Message { kind, text });
        self.message_is_of_edit = false;
    }

    /// Takes away the message about an edit that could not be made.
    pub(crate) fn forget_refusal(&mut self) {
        if self.message_is_of_edit {
            self.screen.message = None;
            self.message_is_of_edit = false;
        }
    }

    fn select(&mut self, target: Target<NodeId>, mode: SelectMode) {
        if !self.has(target) {
            return;
        }
        let mut selection = self.chosen.held().clone();
        selection.select(target, mode);
        self.choose(&selection);
    }

    fn select_these(&mut self, targets: &[Target<NodeId>], mode: SelectMode) {
        let mut selection = match mode {
            SelectMode::Only => Selection::default(),
            SelectMode::Add | SelectMode::Toggle => self.chosen.held().clone(),
        };
        let each = if mode == SelectMode::Only { SelectMode::Add } else { mode };
        for target in targets.iter().filter(|target| self.has(**target)) {
            selection.select(*target, each);
        }
        self.choose(&selection);
    }

    fn select_nothing(&mut self) {
        self.choose(&Selection::default());
    }

    /// Selects these. Whoever does so while a preview is shown means it, whatever becomes of the preview.
    fn choose(&mut self, selection: &Selection<NodeId>) {
        self.gone_to = None;
        self.hold(selection);
        if self.before_preview.is_some() {
            self.before_preview = Some(self.chosen.held().clone());
        }
    }

    /// Puts away what lies on top: question, preview, list, help, manual, message of refusal, selection.
    fn escape(&mut self) {
        if self.screen.question.is_some() {
            return self.leave_question();
        }
        if self.previewing() {
            return self.drop_preview();
        }
        let screen = &mut self.screen;
        if screen.command_list_open {
            screen.command_list_open = false;
        } else if screen.help_open {
            screen.help_open = false;
        } else if screen.around_open {
            screen.around_open = false;
        } else if screen.measuring_open {
            screen.measuring_open = false;
        } else if screen.placing_open {
            screen.placing_open = false;
        } else if screen.manual.is_some() {
            screen.manual = None;
        } else if screen.shop_open {
            screen.shop_open = false;
        } else if screen.at_machine {
            screen.at_machine = false;
        } else if !self.chosen.held().targets().is_empty() {
            self.hold(&Selection::default());
        } else {
            screen.message = None;
        }
    }

    /// Leaves a question unanswered. Work that waits goes on waiting, and says so.
    fn leave_question(&mut self) {
        if let Some(Question::Recovery { .. }) = self.screen.question.take() {
            self.say_that_work_waits();
        }
    }

    /// Selects the place of a finding and shows it.
    fn go_to_finding(&mut self, index: usize) {
        let solved = std::sync::Arc::clone(self.solved());
        let Some(finding) = solved.findings.get(index) else { return };
        let places = finding.places().filter_map(|place| self.target_at(place));
        let mut targets: Vec<_> = places.map(|target| target.named(&solved.nodes)).collect();
        targets.dedup();
        // The place that it is listed by comes last, so that it leads the selection.
        for (index, target) in targets.iter().rev().enumerate() {
            self.select(*target, if index == 0 { SelectMode::Only } else { SelectMode::Toggle });
        }
        let target = self.finding_target(finding);
        let alike = self.alike(finding.fault, target).position(|alike| alike == index);
        self.gone_to = alike.map(|nth| (finding.fault, target, nth));
        let view = if targets.is_empty() { ViewCommand::FrameAll } else { ViewCommand::FrameSelection };
        self.requests.push(Request::View(view));
    }

    /// The finding that was gone to last, by its number from 0, while it is there and nothing else was selected since.
    pub fn explained(&self) -> Option<usize> {
        let (fault, target, nth) = self.gone_to?;
        self.alike(fault, target).nth(nth)
    }

    /// The findings of one check at one place, by their numbers.
    fn alike(&self, fault: Fault, target: Option<Target<NodeId>>) -> impl Iterator<Item = usize> {
        let is = move |finding: &Finding| finding.fault == fault && self.finding_target(finding) == target;
        self.solved().findings.iter().enumerate().filter(move |(_, finding)| is(finding)).map(|(index, _)| index)
    }

    /// What a finding speaks of, by its id.
    fn finding_target(&self, finding: &Finding) -> Option<Target<NodeId>> {
        let nodes = &self.solved().nodes;
        let bend = finding.place.bend.map(|bend| Target::Bend(nodes.bend(bend)));
        bend.or(finding.place.straight.map(|straight| Target::Straight(nodes.straight(straight))))
    }

    /// The bend or straight at a place.
    fn target_at(&self, place: &Place) -> Option<Target> {
        let by_station = || {
            let middle_mm = (place.from_mm + place.to_mm) / 2.0;
            let elements = self.solved().centreline.elements();
            let index = elements.iter().position(|element| middle_mm <= element.to_mm())?;
            Some(if index % 2 == 0 { Target::Straight(index / 2) } else { Target::Bend(index / 2) })
        };
        place.bend.map(Target::Bend).or(place.straight.map(Target::Straight)).or_else(by_station)
    }
}

/// Whether a command would lose unsaved work.
fn loses_work(command: &Command) -> bool {
    matches!(
        command,
        Command::New | Command::Open(_) | Command::OpenDemo(_) | Command::TakeBackRecovery | Command::Quit
    )
}

/// Whether what waits for a name to save under goes on waiting. Anything that means going back to work
/// ends it: nobody wants the program to close at the next save.
fn leaves_waiting(command: &Command) -> bool {
    matches!(
        command,
        Command::SaveAs(_)
            | Command::Hover(_)
            | Command::PointAtTube(_)
            | Command::PointAtChange(_)
            | Command::View(_)
            | Command::ToggleNumbers
            | Command::DismissMessage
            | Command::TellCopied(_)
            | Command::DismissHints
            | Command::SetTheme(_)
            | Command::SetScale(_)
    )
}
