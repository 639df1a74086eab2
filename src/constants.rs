//! Physical constants and factors of units, each written once. What belongs to one correlation alone stands beside it.
//!
//! Exact by definition unless a source says otherwise. The model's own values are part of every result: who gives one
//! more digits changes state hashes.

/// Standard atmosphere [Pa]; the reference of every gauge pressure here (US Standard Atmosphere 1976, sea level).
pub const ATMOSPHERE_PA: f64 = 101_325.0;
/// 0 °C in kelvin (the Celsius scale is defined by it).
pub const ZERO_C_K: f64 = 273.15;
/// Standard acceleration of free fall [m/s2] (3rd CGPM 1901).
pub const GRAVITY: f64 = 9.806_65;
/// Molar gas constant [J/(mol K)], to seven digits (CODATA 2018: 8.314 462 618).
pub const R_MOLAR: f64 = 8.314_463;
/// Specific gas constant of dry air [J/(kg K)], to five digits (US Standard Atmosphere 1976: 8314.32 over 28.9644 g/mol, 287.053).
pub const R_DRY_AIR: f64 = 287.05;
/// Specific gas constant of steam [J/(kg K)]: molar gas constant over 18.015 g/mol, to four digits.
pub const R_STEAM: f64 = 461.5;
/// Triple point of water [K] (IAPWS-95).
pub const TRIPLE_POINT_K: f64 = 273.16;

/// Pascals in a bar.
pub const BAR_PA: f64 = 1e5;
/// Pascals in a pound-force per square inch (NIST SP 811: 6894.757 to seven digits).
pub const PSI_PA: f64 = 6_894.757_293_168;
/// Pascals in a millimetre of mercury at 0 °C, to six digits (NIST SP 811: 133.3224).
pub const MM_HG_PA: f64 = 133.322;
/// Pascals in a micron, a thousandth of a millimetre of mercury, to six digits.
pub const MICRON_PA: f64 = 0.133_322;
/// Pascals in an inch of mercury at 0 °C (NIST SP 811: 3386.389).
pub const INCH_HG_PA: f64 = 3_386.389;

/// Kilograms in an avoirdupois pound.
pub const POUND_KG: f64 = 0.453_592_37;
/// Kilograms in an avoirdupois ounce, a sixteenth of a pound.
pub const OUNCE_KG: f64 = POUND_KG / 16.0;
/// Millilitres in a fluid ounce of the United States.
pub const FLUID_OUNCE_ML: f64 = 29.573_529_562_5;
/// Metres in a foot.
pub const FOOT_M: f64 = 0.3048;
/// Fahrenheit degrees in a kelvin, as differences.
pub const FAHRENHEIT_PER_K: f64 = 1.8;
/// 0 °C on the Fahrenheit scale.
pub const ZERO_C_F: f64 = 32.0;
