//! Checks the terms of an equation before `feos` sees them, which takes a bad one for a bug and ends the program
//! (feature `tables` only).

use serde_json::Value;

use super::equation_error::EquationError;

/// A kind of term: its name, its whole numbers, its other numbers.
type Kind = (&'static str, &'static [&'static str], &'static [&'static str]);

const RESIDUAL: [Kind; 5] = [
    ("ResidualHelmholtzPower", &["d", "l"], &["n", "t"]),
    ("ResidualHelmholtzGaussian", &["d"], &["n", "t", "beta", "epsilon", "eta", "gamma"]),
    ("ResidualHelmholtzExponential", &["d", "l", "t"], &["g", "n"]),
    ("ResidualHelmholtzGaoB", &["d"], &["b", "beta", "epsilon", "eta", "gamma", "n", "t"]),
    ("ResidualHelmholtzLemmon2005", &["d", "l"], &["m", "n", "t"]),
];

const IDEAL_GAS: [Kind; 7] = [
    ("IdealGasHelmholtzLead", &[], &["a1", "a2"]),
    ("IdealGasHelmholtzLogTau", &[], &["a"]),
    ("IdealGasHelmholtzPower", &[], &["n", "t"]),
    ("IdealGasHelmholtzPlanckEinstein", &[], &["n", "t"]),
    ("IdealGasHelmholtzPlanckEinsteinGeneralized", &[], &["c", "d", "n", "t"]),
    ("IdealGasHelmholtzCP0Constant", &[], &["T0", "Tc", "cp_over_R"]),
    ("IdealGasHelmholtzCP0PolyT", &[], &["T0", "Tc", "c", "t"]),
];

/// Checks both lists of terms, and writes whole numbers as such (`1.0` as `1`).
pub(super) fn check(record: &mut Value) -> Result<(), EquationError> {
    for (list, kinds) in [("residual", &RESIDUAL[..]), ("ideal_gas", &IDEAL_GAS)] {
        let bad = |what: String| EquationError::Coefficients(format!("{list}: {what}"));
        let terms = record[list].as_array_mut().filter(|terms| !terms.is_empty());
        for term in terms.ok_or_else(|| bad("no list of terms".to_owned()))? {
            let name = term["type"].as_str().unwrap_or("a term without a type").to_owned();
            let kind = kinds.iter().find(|kind| kind.0 == name);
            let (_, whole, other) = kind.ok_or_else(|| bad(format!("{name} is not known here")))?;
            one_term(term, whole, other, list == "residual")
                .map_err(|what| bad(format!("{name}: {what}")))?;
        }
    }
    Ok(())
}

fn one_term(term: &mut Value, whole: &[&str], other: &[&str], lists_only: bool) -> Result<(), String> {
    let Some(fields) = term.as_object_mut() else { return Err("is no object".to_owned()) };
    if fields.len() != 1 + whole.len() + other.len() {
        return Err(format!("needs {} and nothing else", [whole, other].concat().join(", ")));
    }
    let mut length = None;
    for (keys, whole) in [(whole, true), (other, false)] {
        for key in keys {
            let field = fields.get_mut(*key).ok_or_else(|| format!("no {key}"))?;
            match field {
                Value::Array(list) => {
                    if list.is_empty() || *length.get_or_insert(list.len()) != list.len() {
                        return Err("its lists are empty or of different length".to_owned());
                    }
                    list.iter_mut().try_for_each(|value| number(value, whole))
                }
                _ if lists_only => Err("is no list".to_owned()),
                value => number(value, whole),
            }
            .map_err(|what| format!("{key} {what}"))?;
        }
    }
    Ok(())
}

fn number(value: &mut Value, whole: bool) -> Result<(), String> {
    let Some(v) = value.as_f64().filter(|v| v.is_finite()) else { return Err("is no number".to_owned()) };
    if whole {
        if v.fract() != 0.0 || v.abs() > 1000.0 {
            return Err(format!("is {v}, not a small whole number"));
        }
        *value = (v as i64).into();
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::super::equation::Equation;
    use super::*;

    fn r134a() -> Value {
        serde_json::from_str(include_str!("../../assets/refrigerants/R-134a.json")).unwrap()
    }

    /// CoolProp writes the powers of some fluids as 1.0.
    #[test]
    fn whole_numbers_may_have_a_point() {
        let mut record = r134a();
        for d in record["residual"][0]["d"].as_array_mut().unwrap() {
            *d = d.as_f64().unwrap().into();
        }
        check(&mut record).unwrap();
        assert!(record["residual"][0]["d"][0].is_i64() || record["residual"][0]["d"][0].is_u64());
    }

    #[test]
    fn a_bad_term_is_an_error() {
        let spoil: [(&str, fn(&mut Value)); 8] = [
            ("no list of terms", |r| r["residual"] = Value::Null),
            ("is not known here", |r| r["residual"][0]["type"] = "ResidualHelmholtzMagic".into()),
            ("and nothing else", |r| r["residual"][0]["extra"] = 1.into()),
            ("different length", |r| drop(r["residual"][0]["n"].as_array_mut().unwrap().pop())),
            ("not a small whole number", |r| r["residual"][0]["d"][3] = 1.5.into()),
            ("is no number", |r| r["residual"][0]["n"][3] = "x".into()),
            ("is no list", |r| r["residual"][0]["n"] = 1.into()),
            ("is no number", |r| r["ideal_gas"][1]["a"] = Value::Null),
        ];
        for (message, spoil) in spoil {
            let mut record = r134a();
            spoil(&mut record);
            let error = Equation::from_json(&record.to_string()).err().expect(message).to_string();
            assert!(error.contains(message), "{error}");
        }
    }
}
