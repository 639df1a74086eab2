//! Time stepping: adaptive implicit steps that may reach beyond the present tick and are cut back to it when
//! an input changes.

use super::boundary::Outside;
use super::coil::CoilAir;
use super::inside;
use super::step_films;
use super::surroundings;
use super::system::{Guess, Outcome, System};
use super::wall_films::WallFilms;
use super::{DT_FIRST_S, DT_MIN_S, Inputs, Plant, State};

const DT_MAX_S: f64 = 2.0;
/// Accepted error of a step: ln p, h [J/kg].
const ERROR_LN_P: f64 = 2e-3;
const ERROR_H: f64 = 600.0;
/// Accepted error of air in a step, as the share of the pressure it makes.
const ERROR_AIR: f64 = 0.01;
/// A step with this error or more is taken again, shorter.
const REFUSED: f64 = 4.0;

impl Plant {
    /// Change the inputs at `time_s`: a step that reaches beyond is taken again up to there.
    pub fn set_inputs(&mut self, time_s: f64, inputs: Inputs) {
        if inputs == self.inputs {
            return;
        }
        self.cut_at(time_s);
        // A fan that speeds up by a fiftieth or weather that drifts leaves the trend as it is; the error of the
        // next step says if it does not.
        if !inputs.near(&self.inputs) {
            self.rates = None;
            self.next_dt_s = self.first_dt_s();
        }
        self.layout.turn_vessels(inputs.centre_hose);
        self.inputs = inputs;
    }

    /// Take a step that reaches beyond a time again, up to that time.
    pub(super) fn cut_at(&mut self, time_s: f64) {
        if self.after.time_s > time_s + 1e-9 {
            self.counts.cut += 1;
            let span = time_s - self.before.time_s;
            self.after.copy(&self.before);
            self.outcome.nodes.clone_from(&self.nodes_before);
            if span > 1e-9 {
                self.run_to(time_s, span);
            }
        }
    }

    /// A new compressor: neither worn nor battered.
    pub fn renew_compressor(&mut self, time_s: f64) {
        self.cut_at(time_s);
        (self.after.shell.wear, self.after.shell.battered) = (0.0, 0.0);
    }

    /// Take steps whose error and whose Newton remainder are this share of the usual (1): smaller for a reference run.
    pub fn set_accuracy(&mut self, share: f64) {
        self.accuracy = share.clamp(1e-7, 1e3);
        self.next_dt_s = self.next_dt_s.min(self.first_dt_s());
    }

    /// Let time reach `time_s`; the solver may run ahead of it.
    pub fn advance_to(&mut self, time_s: f64) {
        while self.after.time_s < time_s - 1e-9 {
            self.take_step(self.next_dt_s);
        }
    }

    /// Length of a step after a change [s].
    fn first_dt_s(&self) -> f64 {
        (DT_FIRST_S * self.accuracy.sqrt()).max(DT_MIN_S)
    }

    /// Steps that end exactly at `time_s`.
    fn run_to(&mut self, time_s: f64, first_s: f64) {
        self.next_dt_s = first_s;
        loop {
            let left = time_s - self.after.time_s;
            if left <= 1e-9 {
                break;
            }
            self.take_step(self.next_dt_s.min(left));
        }
        self.after.time_s = time_s;
    }

    /// One accepted step of at most `dt_s`.
    fn take_step(&mut self, dt_s: f64) {
        let mut dt = dt_s;
        loop {
            match self.attempt(dt) {
                Some(grow) => {
                    self.next_dt_s = (dt * grow).clamp(DT_MIN_S, DT_MAX_S);
                    self.counts.steps += 1;
                    return;
                }
                None if dt > DT_MIN_S => {
                    self.counts.rejected += 1;
                    self.rates = None;
                    dt *= if dt > 1e-3 { 0.3 } else { 0.1 };
                }
                None => {
                    // Hold the state over a short stretch rather than stop; say so loudly.
                    if self.troubles.len() < 20 {
                        let t = self.after.time_s;
                        self.troubles.push(format!("step of {dt:.1e} s at {t:.3} s did not solve"));
                    }
                    self.before.copy(&self.after);
                    self.nodes_before.clone_from(&self.outcome.nodes);
                    self.after.time_s += DT_FIRST_S;
                    self.next_dt_s = DT_MIN_S * 10.0;
                    return;
                }
            }
        }
    }

    /// Films of a step that starts from `state`.
    pub(super) fn films_of(&self, state: &State) -> Vec<WallFilms> {
        if self.films_held {
            state.films.clone()
        } else {
            step_films::at(self.refrigerant, &self.layout, state)
        }
    }

    /// Try one step from `after`; on success it is committed and the growth factor for the next returned.
    pub(super) fn attempt(&mut self, dt: f64) -> Option<f64> {
        let from = &self.after;
        let n = self.layout.len();
        let mut guess = std::mem::take(&mut self.spare.guess);
        guess.copy(from);
        if let Some(rates) = &self.rates {
            for i in 0..n {
                guess.u[i] += (rates.u[i] * dt).clamp(-0.2, 0.2);
                guess.h[i] += (rates.h[i] * dt).clamp(-2e4, 2e4);
                let most = 0.3 * from.air_kg[i].abs();
                guess.air_kg[i] += (rates.air_kg[i] * dt).clamp(-most, most);
            }
        }
        let coil = CoilAir::entering(&self.spec, &self.inputs, from);
        let system = System {
            refrigerant: self.refrigerant,
            spec: &self.spec,
            layout: &self.layout,
            accuracy: self.accuracy,
        };
        let films = self.films_of(from);
        let spare = std::mem::take(&mut self.spare.outcome);
        let now = (from, self.outcome.nodes.as_slice());
        let out = system.step(now, &films, &self.inputs, &coil, dt, &guess, spare, &mut self.scratch)?;

        let mut air_kg = std::mem::take(&mut self.spare.air_kg);
        air_kg.clear();
        air_kg.extend(from.air_kg.iter().zip(&out.air_rate_kg_s).map(|(a, rate)| a + dt * rate));
        let error = self.error_of(&out, &guess, &air_kg);
        self.spare.guess = guess;
        let refused = (error.is_nan() || error >= REFUSED) && dt > 1e-3;
        if refused {
            self.spare.outcome = out;
        } else {
            self.commit(out, &air_kg, &coil, films, dt);
        }
        self.spare.air_kg = air_kg;
        (!refused).then(|| (0.9 / error.max(1e-6).sqrt()).clamp(0.3, 2.0))
    }

    /// What there is to look at before any step, where none converges.
    pub(super) fn first_look(&self) -> Outcome {
        let coil = CoilAir::entering(&self.spec, &self.inputs, &self.after);
        let system = System {
            refrigerant: self.refrigerant,
            spec: &self.spec,
            layout: &self.layout,
            accuracy: self.accuracy,
        };
        system.as_it_stands(&self.after, &self.inputs, &coil, &self.films_of(&self.after), DT_MIN_S)
    }

    /// Error of a backward Euler step against its linear predictor, 1 where it is just accepted as it is.
    fn error_of(&self, out: &Outcome, guess: &Guess, air_kg: &[f64]) -> f64 {
        let from = &self.after;
        let predicted = self.rates.is_some();
        let mut error: f64 = 0.0;
        for (i, node) in out.nodes.iter().enumerate() {
            // Pressure is what flows and gauges answer to; where there is air it is not the refrigerant's alone.
            let share = node.p_ref / node.p.v;
            let by_air = node.p_per_air / node.p.v;
            let pressure = |u: f64, air: f64| (share * (out.u[i] - u) + by_air * (air_kg[i] - air)).abs();
            let (eu, eh, ea) = if predicted {
                (
                    pressure(guess.u[i], guess.air_kg[i]) / ERROR_LN_P,
                    (out.h[i] - guess.h[i]).abs() / ERROR_H,
                    (air_kg[i] - guess.air_kg[i]).abs() * by_air / ERROR_AIR,
                )
            } else {
                // A first step after a change has no predictor: judge its whole move, more leniently.
                let lenient = 20.0;
                (
                    pressure(from.u[i], from.air_kg[i]) / (lenient * ERROR_LN_P),
                    (out.h[i] - from.h[i]).abs() / (lenient * ERROR_H),
                    (air_kg[i] - from.air_kg[i]).abs() * by_air / (lenient * ERROR_AIR),
                )
            };
            // Nearly empty volumes may swing; nobody can see them.
            let weight = (node.mass.v / (self.layout.volumes_m3[i] * 0.5)).min(1.0);
            error = error.max(0.5 * eu * weight).max(0.5 * eh * weight).max(0.5 * ea);
        }
        error / self.accuracy
    }

    /// Take a converged step: conserved totals move by the converged flows, never by the image of u and h.
    fn commit(&mut self, out: Outcome, air_kg: &[f64], coil: &CoilAir, films: Vec<WallFilms>, dt: f64) {
        // The new state is written where the one before the last was.
        std::mem::swap(&mut self.before, &mut self.after);
        let (from, next) = (&self.before, &mut self.after);
        next.copy(from);
        let n = self.layout.len();
        next.time_s += dt;
        for flow in &out.flows {
            next.mass_kg[flow.from] -= dt * flow.mass_kg_s;
            next.mass_kg[flow.to] += dt * flow.mass_kg_s;
            next.energy_j[flow.from] -= dt * flow.out_w;
            next.energy_j[flow.to] += dt * flow.in_w;
        }
        for leaving in &out.leaving {
            let gone_kg = dt * leaving.mass_kg_s;
            next.mass_kg[leaving.volume] -= gone_kg;
            next.energy_j[leaving.volume] -= dt * leaving.heat_w;
            match leaving.to {
                Outside::Leak => next.released.leaked_kg += gone_kg,
                Outside::Vent => next.released.vented_kg += gone_kg,
                Outside::Pump => next.released.pumped_kg += gone_kg,
                Outside::Relief => next.released.relieved_kg += gone_kg,
                Outside::Cylinder => next.from_cylinder_kg -= gone_kg,
                Outside::Service => next.serviced_kg -= gone_kg,
            }
        }
        next.air_in_kg -= dt * out.air_lost_kg_s;
        for i in 0..n {
            next.energy_j[i] += dt * out.heat_w[i];
            next.through_kg_s[i] = 0.0;
        }
        for flow in &out.flows {
            // Through-flow of a volume: half of what enters and leaves.
            next.through_kg_s[flow.from] += 0.5 * flow.mass_kg_s.abs();
            next.through_kg_s[flow.to] += 0.5 * flow.mass_kg_s.abs();
        }
        next.u.clone_from(&out.u);
        next.h.clone_from(&out.h);
        next.wall_k.clone_from(&out.wall_k);
        next.heat_w.clone_from(&out.heat_w);
        next.films = films;
        next.air_kg.copy_from_slice(air_kg);
        next.bulb_t_k = out.bulb_t_k;
        let lag = dt / (self.spec.fin_sensor_lag_s + dt);
        let fin = out.wall_k[self.layout.evaporator.start + self.spec.fin_sensor_cell];
        next.fin_t_k += lag * (fin - next.fin_t_k);

        self.friction_w = inside::move_on(&self.spec, &self.layout, &self.inputs, &out, dt, next);
        let around = surroundings::move_on(&self.spec, &self.layout, &self.inputs, coil, from, dt, next);
        (self.vent, self.condensate_kg_s) = around;

        let rates = self.rates.get_or_insert_default();
        for (rate, new, old) in [
            (&mut rates.u, &out.u, &from.u),
            (&mut rates.h, &out.h, &from.h),
            (&mut rates.air_kg, &next.air_kg, &from.air_kg),
        ] {
            rate.clear();
            rate.extend(new.iter().zip(old).map(|(a, b)| (a - b) / dt));
        }
        self.counts.iterations += out.iterations as u64;
        let mut last = std::mem::replace(&mut self.outcome, out);
        std::mem::swap(&mut self.nodes_before, &mut last.nodes);
        self.spare.outcome = last;
    }
}
