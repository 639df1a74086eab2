//! The refrigerants whose tables lie in `assets/refrigerants`, embedded in the program.
//!
//! A table is read when it is first asked for, so refrigerants
//! that are not used cost a start nothing.

use std::sync::OnceLock;

use super::{Refrigerant, TableError};
use crate::assets::TABLES;

/// Designations, in alphabetical order.
static NAMES: [&str; TABLES.len()] = {
    let mut names = [""; TABLES.len()];
    let mut i = 0;
    while i < names.len() {
        names[i] = TABLES[i].id;
        i += 1;
    }
    names
};

impl Refrigerant {
    /// R-134a (1,1,1,2-tetrafluoroethane), from the embedded table.
    ///
    /// # Panics
    ///
    /// Never with the table that is committed: a test reads it.
    pub fn r134a() -> &'static Refrigerant {
        Self::by_name("R-134a").expect("the embedded R-134a table is sound")
    }

    /// The refrigerant of this designation, such as `R-134a`; none when there is no sound table of it.
    ///
    /// The first call reads its table, which takes about a millisecond.
    pub fn by_name(name: &str) -> Option<&'static Refrigerant> {
        find(name)?.ok()
    }

    /// The designations that [`Refrigerant::by_name`] knows: one for each table in `assets/refrigerants`.
    pub fn names() -> &'static [&'static str] {
        names()
    }
}

/// Designations, in alphabetical order.
fn names() -> &'static [&'static str] {
    &NAMES
}

/// The refrigerant of this designation: none when there is no such table, an error when its table is damaged.
fn find(name: &str) -> Option<Result<&'static Refrigerant, &'static TableError>> {
    static READ: [OnceLock<Result<Refrigerant, TableError>>; TABLES.len()] =
        [const { OnceLock::new() }; TABLES.len()];
    let index = NAMES.iter().position(|known| *known == name)?;
    Some(READ[index].get_or_init(|| Refrigerant::from_bytes(TABLES[index].bytes)).as_ref())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every table of the folder is sound and says the name its file has.
    #[test]
    fn every_shipped_table_can_be_read() {
        assert!(names().contains(&"R-134a") && names().len() >= 4);
        for &name in names() {
            assert_eq!(find(name).unwrap().unwrap().name(), name);
        }
        assert!(find("R-134").is_none() && find("").is_none());
    }
}
