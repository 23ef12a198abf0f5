//! The run at the machine: step on, step back, begin again, and how it stands.

use elbowroom_bending::plan::{Plan, PlanRefusal};

use crate::Workbench;
use crate::desk::judged::Judged;
use crate::desk::run::{MOST_RUNS, Run, RunOf, Standing};

impl Workbench {
    /// The plan that the next tube is bent by: with what measured pieces made of it.
    ///
    /// # Errors
    /// Says which bend has no tooling, or why the drawing makes no tube.
    pub fn planned(&self) -> Result<Plan, PlanRefusal> {
        match self.judged().as_deref() {
            Some(Ok(Judged { plan, job })) => Ok(job.planned(plan)),
            Some(Err(why)) => Err(why.clone()),
            None => Plan::of(self.part(), self.shop(), self.solved()),
        }
    }

    /// How the tube that is worked on stands at the machine, by its plan.
    pub fn at_machine(&self, plan: &Plan) -> Standing {
        match self.run() {
            Some(run) => run.standing(&plan.program),
            None => Standing { done: 0, steps: plan.program.steps.len(), tubes: 0, changed: None },
        }
    }

    /// Opens or closes the view for the machine.
    pub(crate) fn toggle_at_machine(&mut self) {
        self.drop_preview();
        self.screen.at_machine = !self.screen.at_machine;
    }

    /// The thing to be done is done; after the last the next tube is to be loaded. A program that changed since is not
    /// followed before the person has said what becomes of it.
    pub(crate) fn step_on(&mut self) {
        let Ok(plan) = self.planned() else { return };
        let of = self.run_of();
        let mut run = self.run().cloned().unwrap_or_else(|| Run::begun(of.clone(), &plan.program));
        let standing = run.standing(&plan.program);
        if plan.program.steps.is_empty() || standing.changed.is_some() {
            return;
        }
        if run.done == 0 {
            run.follow(&plan.program);
        }
        if standing.is_finished() {
            (run.done, run.tubes) = (0, run.tubes.saturating_add(1));
        } else {
            run.done = standing.done + 1;
        }
        self.keep_run(Run { of, ..run });
    }

    /// The last thing that was done is to be done again.
    pub(crate) fn step_back(&mut self) {
        if let Some(run) = self.run().filter(|run| run.done > 0).cloned() {
            self.keep_run(Run { of: self.run_of(), done: run.done - 1, ..run });
        }
    }

    /// Begins a tube by the figures as they are, its loading first; how many were bent stays.
    pub(crate) fn begin_tube(&mut self) {
        let Ok(plan) = self.planned() else { return };
        let tubes = self.run().map_or(0, |run| run.tubes);
        self.keep_run(Run { tubes, ..Run::begun(self.run_of(), &plan.program) });
    }

    /// Goes on by the figures as they are, what is done staying done.
    pub(crate) fn follow_change(&mut self) {
        let (Ok(plan), Some(run)) = (self.planned(), self.run().cloned()) else { return };
        let mut run = Run { done: run.standing(&plan.program).done, of: self.run_of(), ..run };
        run.follow(&plan.program);
        self.keep_run(run);
    }

    /// Which tube is worked on, as runs name it.
    fn run_of(&self) -> RunOf {
        let tube = self.system().active();
        let file = self.file.as_ref().map(|file| std::path::absolute(file).unwrap_or_else(|_| file.clone()));
        let file = file.and_then(|file| file.to_str().map(str::to_owned)).unwrap_or_default();
        RunOf { file, tube: tube.number().into(), name: self.part().name.clone() }
    }

    /// The run of the tube that is worked on: that of its place in its file whatever its name is now, else of the name that
    /// it had before it was in a file.
    fn run(&self) -> Option<&Run> {
        let of = self.run_of();
        let runs = &self.settings.runs;
        let in_file = |run: &&Run| !of.file.is_empty() && run.of.file == of.file && run.of.tube == of.tube;
        let by_name = |run: &&Run| run.of.file.is_empty() && run.of.tube == of.tube && run.of.name == of.name;
        runs.iter().find(in_file).or_else(|| runs.iter().find(by_name))
    }

    fn keep_run(&mut self, run: Run) {
        let before = self.run().map(|run| run.of.clone());
        let runs = &mut self.settings.runs;
        runs.retain(|other| Some(&other.of) != before.as_ref() && other.of != run.of);
        runs.insert(0, run);
        runs.truncate(MOST_RUNS);
        self.remember();
    }
}
