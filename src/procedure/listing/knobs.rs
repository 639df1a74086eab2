//! The knobs, each as an action file turns it; the rows come from their table.

use super::{Kind, Listed, arg};
use crate::knobs::{Controls, Knob, Range, Scale, Value};

/// Every knob, in the order of the table. The examples set what is usual.
pub fn knobs() -> Vec<Listed> {
    let usual = Controls::default();
    let listed = |&knob: &Knob| {
        let info = knob.info();
        let (name, kind) = match info.scale {
            Scale::Switch => ("on", Kind::Yes),
            Scale::Number { range: Range { unit, min, max }, .. } => {
                (info.key, Kind::Number { unit, min, max })
            }
        };
        let value = match usual.get(knob).value() {
            Value::Switch(on) => on.to_string(),
            Value::Number(value) => value.to_string(),
        };
        Listed {
            name: info.key,
            arguments: vec![arg(name, kind).listed()],
            words: info.meaning(),
            example: format!("set({}({value}))", info.key),
        }
    };
    Knob::ALL.iter().map(listed).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::Action;
    use crate::scenario::parse;

    #[test]
    fn each_example_is_read_as_a_turn_of_its_knob() {
        let listed = knobs();
        assert_eq!(listed.len(), Knob::ALL.len());
        for (row, &knob) in listed.iter().zip(Knob::ALL) {
            let read: Action = parse("example", &row.example).unwrap_or_else(|e| panic!("{e}"));
            assert_eq!(read, Action::Set(Controls::default().get(knob)));
            let range = knob.info().range();
            assert_eq!(row.arguments[0].max, range.map(|range| range.max), "{}", row.name);
        }
    }
}
