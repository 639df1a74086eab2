//! The refrigerants whose tables lie in `assets/refrigerants`, embedded in the program.
//!
//! The list is made by `src/build.rs` from the folder. A table is read when it is first asked for, so refrigerants
//! that are not used cost a start nothing.

use std::sync::OnceLock;

use super::{Refrigerant, TableError};

mod list {
    include!(concat!(env!("OUT_DIR"), "/refrigerants.rs"));
}

/// Designations, in alphabetical order.
pub(super) fn names() -> &'static [&'static str] {
    &list::NAMES
}

/// The refrigerant of this designation: none when there is no such table, an error when its table is damaged.
pub(super) fn find(name: &str) -> Option<Result<&'static Refrigerant, &'static TableError>> {
    static READ: [OnceLock<Result<Refrigerant, TableError>>; list::COUNT] =
        [const { OnceLock::new() }; list::COUNT];
    let index = list::NAMES.iter().position(|known| *known == name)?;
    Some(READ[index].get_or_init(|| Refrigerant::from_bytes(list::TABLES[index])).as_ref())
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
