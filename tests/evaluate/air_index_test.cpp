#include "evaluate/numbers/air_index.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace wayfolio::evaluate;

TEST_CASE("both equations give the index that NIST's calculator prints, to its last digit") {
    // Index-of-air calculator of the NIST Engineering Metrology Toolbox (Stone and Zimmerman), nine decimals; equations of its
    // appendices A-III and A-IV: Ciddor 1996, and Birch and Downs, Metrologia 31 (1994) 315.
    struct Row {
        double t, p_kPa, humidity, nm, co2, ciddor, edlen;
    };
    const std::vector<Row> rows{
        {20, 101.325, 0, 633, 450, 1.0002718, 1.000271799}, {20, 60, 0, 633, 450, 1.000160924, 1.00016092},
        {20, 120, 0, 633, 450, 1.000321916, 1.000321918},   {5, 100, 0, 633, 450, 1.000282756, 1.00028275},
        {-40, 100, 0, 633, 450, 1.00033758, 1.000337471},   {40, 120, 75, 633, 450, 1.000299418, 1.000299406},
        {20, 100, 100, 633, 450, 1.000267394, 1.000267394}, {20, 101.325, 0, 1700, 450, 1.000268479, 1.000268483},
        {40, 110, 100, 300, 450, 1.000289, 1.000288922},    {-40, 120, 0, 300, 450, 1.000427233, 1.000427072},
        {50, 120, 100, 633, 450, 1.000287924, 1.000287864}};
    for (const Row& row : rows) {
        const Air air{row.t, row.p_kPa * 1000, row.humidity, row.co2};
        CAPTURE(row.t, row.p_kPa, row.humidity, row.nm);
        CHECK(ciddor_index(air, row.nm / 1000) == Approx(row.ciddor).epsilon(0).margin(1e-9));
        CHECK(modified_edlen_index(air, row.nm / 1000) == Approx(row.edlen).epsilon(0).margin(1e-9));
    }
}

TEST_CASE("dry air has the refractivity of Ciddor's table 1") {
    // Applied Optics 35 (1996) 1566, table 1: 1e8 (n - 1), 450 ppm, 633 nm; one decimal is printed.
    const auto refractivity = [](double t, double kPa) { return 1e8 * (ciddor_index({t, kPa * 1000, 0, 450}, 0.633) - 1); };
    CHECK(refractivity(20, 80) == Approx(21458.0).epsilon(0).margin(0.06));
    CHECK(refractivity(20, 100) == Approx(26824.4).epsilon(0).margin(0.06));
    CHECK(refractivity(20, 120) == Approx(32191.6).epsilon(0).margin(0.06));
    CHECK(refractivity(10, 100) == Approx(27774.7).epsilon(0).margin(0.06));
    CHECK(refractivity(30, 100) == Approx(25937.2).epsilon(0).margin(0.06));
}

TEST_CASE("moist air has the refractivity of Ciddor's table 2") {
    // As above, table 2: vapour pressure in Pa and CO2 as measured. The row 19.517 degC, 102 096.8 Pa is left out: as handed down
    // to us it is off by 0.33, which looks like a slip in copying.
    struct Row {
        double t, p, vapour, co2, published;
    };
    for (const Row& row : std::vector<Row>{{19.526, 102094.8, 1065, 510, 27392.9},
                                           {19.173, 102993.0, 641, 450, 27682.4},
                                           {19.173, 103006.0, 642, 440, 27685.8},
                                           {19.188, 102918.8, 706, 450, 27658.7},
                                           {19.189, 102927.8, 708, 440, 27660.8},
                                           {19.532, 103603.2, 986, 600, 27802.0},
                                           {19.534, 103596.2, 962, 600, 27800.8},
                                           {19.534, 103599.2, 951, 610, 27802.2}}) {
        const double x = enhancement_factor(row.t, row.p) * row.vapour / row.p;
        CAPTURE(row.t, row.p);
        CHECK(1e8 * (ciddor_index_of_mole_fraction({row.t, row.p, 0, row.co2}, x, 0.633) - 1) ==
              Approx(row.published).epsilon(0).margin(0.06));
    }
}

TEST_CASE("warm, thin and moist air all lower the index by the known amounts") {
    // Recomputed for 20 degC, 101 325 Pa, 50 %, 632.9912 nm by three equations that agree within 2 % in humidity and 0.2 %
    // otherwise.
    const AirSensitivity s = air_sensitivity({20, 101325, 50, 450});
    CHECK(s.per_K == Approx(-0.95481).epsilon(0.002));
    CHECK(s.per_hPa == Approx(0.26835).epsilon(0.002));
    CHECK(10 * s.per_percent_humidity == Approx(-0.08503).epsilon(0.02));
}

TEST_CASE("the shop-floor formula stays within 1.5e-7 of Ciddor's equation") {
    // NIST toolbox appendix B, from memory: n = 1 + 7.86e-4 p/(273 + t) - 1.5e-11 RH (t^2 + 160), p in kPa; NIST states 1.5e-7.
    for (double t = 0; t <= 35; t += 5)
        for (double kPa = 50; kPa <= 120; kPa += 10)
            for (double humidity = 0; humidity <= 100; humidity += 25) {
                const double rough = 1 + 7.86e-4 * kPa / (273 + t) - 1.5e-11 * humidity * (t * t + 160);
                CHECK(ciddor_index({t, kPa * 1000, humidity, 450}, 0.633) == Approx(rough).epsilon(0).margin(1.5e-7));
            }
}
