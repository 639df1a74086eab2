//! Publications that several rows rest on, each named once. A manual that our notes give without a year is called undated;
//! what nobody can look up by name is common practice, whatever was read.

/// Independent software that the tables are compared with, and the equations it takes.
pub const COOLPROP: &str = "CoolProp 8.0.0 with the equations of Tillner-Roth & Baehr 1994 (R-134a), Lemmon & Akasaka 2022 (R-1234yf), \
                            Tillner-Roth & Yokozeki 1997 (R-32) and Lemmon, McLinden & Wagner 2009 (R-290)";
/// The same for moist air.
pub const MOIST_AIR: &str = "CoolProp 8.0.0, HAPropsSI (ASHRAE RP-1485)";
/// Water at low pressure.
pub const WATER: &str = "IAPWS-95 (Wagner & Pruss 2002) and IAPWS R14-08 through CoolProp 8.0.0";
/// Pressures of a loop at rest.
pub const AUDI: &str = "Audi A6 service manual 2001, \"base pressure in refrigerant system, engine OFF\"";
/// Pressures and vent air by weather.
pub const CHRYSLER: &str = "Chrysler Intrepid service manual 2000, \"A/C System Performance\"";
/// Car circuits in a workshop.
pub const SUZUKI_2006: &str = "Suzuki service manual 2006";
/// Regressions of rooftop units with a fault, evaluated at 19.4 °C wet bulb, 35 °C outside and a rated COP of 4.
pub const CHEUNG_BRAUN: &str = "regression of Cheung & Braun, NREL/SR-5500-65030 (2015), coefficients as coded in NREL's OpenStudio fault measures, \
                                evaluated at 19.4 °C wet bulb and 35 °C outside";
/// Valve and orifice over charge.
pub const RP_1173: &str =
    "ORNL survey of the literature for ASHRAE RP-1173, undated (Purdue, six residential units)";
/// Switches of several makers.
pub const SWITCHES: &str = "service manuals of Saab, Honda, Hyundai, Nissan and Volkswagen, all undated";
/// What keeps an evaporator from freezing: off at 0 °C and on at 3; off below 3 °C; 0.5 ± 0.5 °C.
pub const EVAPORATOR_SWITCHES: &str =
    "service manuals of a Tracker, of Honda and of a car with a dual unit, all undated";
/// Tables of gauge readings and causes.
pub const GAUGE_TABLES: &str = "gauge tables of the workshop manuals Suzuki RA410 (1B-8), Suzuki Liana (7B-19), Toyota and Mahindra, all undated";
/// The same with one more observation for look-alikes.
pub const EXTRA_TABLES: &str =
    "gauge table with a further observation, as in Nissan's and three more service manuals, all undated";
/// A manual that our notes do not name.
pub const ORIFICE_MANUAL: &str = "a service manual of a car with an orifice tube, not named in our notes";
