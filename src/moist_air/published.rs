//! Values of moist air at sea level by CoolProp 8.0.0 and by a published equation, for the unit tests and the qualification guide.

/// Saturated air (Hyland & Wexler, ASHRAE Trans. 89(2A), 1983; humidity ratio of the real gas, CoolProp HAPropsSI): temperature [°C], saturation
/// pressure [Pa], humidity ratio [kg/kg].
pub(crate) const SATURATED: [(f64, f64, f64); 10] = [
    (-20.0, 103.26, 0.000_637),
    (-10.0, 259.90, 0.001_606),
    (0.0, 611.21, 0.003_790),
    (5.0, 872.49, 0.005_425),
    (10.0, 1228.00, 0.007_663),
    (20.0, 2338.80, 0.014_760),
    (25.0, 3169.22, 0.020_173),
    (30.0, 4246.03, 0.027_333),
    (35.0, 5627.82, 0.036_760),
    (40.0, 7383.46, 0.049_144),
];

/// Moist air (CoolProp HAPropsSI): temperature [°C], relative humidity [%], humidity ratio [kg/kg], dew point [°C], enthalpy
/// [kJ/kg dry air], specific volume [m3/kg dry air].
pub(crate) const MOIST: [(f64, f64, f64, f64, f64, f64); 11] = [
    (20.0, 50.0, 0.007_294, 9.27, 38.62, 0.8399),
    (25.0, 50.0, 0.009_926, 13.87, 50.42, 0.8578),
    (26.7, 50.0, 0.010_996, 15.43, 54.89, 0.8641),
    (27.0, 50.0, 0.011_196, 15.70, 55.71, 0.8653),
    (30.0, 50.0, 0.013_373, 18.45, 64.36, 0.8770),
    (35.0, 40.0, 0.014_200, 19.39, 71.64, 0.8926),
    (35.0, 50.0, 0.017_852, 23.03, 81.00, 0.8977),
    (37.8, 40.0, 0.016_617, 21.88, 80.74, 0.9042),
    (40.0, 40.0, 0.018_768, 23.83, 88.56, 0.9136),
    (45.0, 20.0, 0.012_068, 16.86, 76.47, 0.9186),
    (50.0, 10.0, 0.007_716, 10.10, 70.33, 0.9267),
];
