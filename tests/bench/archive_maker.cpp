#include "support/light_records.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>

/// Writes a large archive of light records, to time the catalogue: wayfolio-archive DIR COUNT
///
/// Machine M (serial S-0 and up) is visited every quarter; each visit is one job with a bag of its own, written by the code that
/// writes every record, with the evaluation of its invented readings. Every tenth machine's E grows by 0.3 um a visit, the others'
/// keeps its level with a ripple; limits are 10 um. Every hundredth job has a second revision that replaces the first.
int main(int count, char** words) {
    using namespace wayfolio::testing;
    if (count != 3) {
        std::fputs("usage: wayfolio-archive DIR COUNT\n", stderr);
        return 2;
    }
    const std::filesystem::path root = words[1];
    const int records = std::atoi(words[2]);
    constexpr int visits = 20;
    for (int number = 0; number < records; ++number) {
        const int machine = number / visits, visit = number % visits;
        const double ripple = 0.4 * std::sin(1.7 * visit + machine);
        const bool again = number % 100 == 99;
        LightRecord record{.job = fmt::format("K-{:05}", again ? number - 1 : number),
                           .serial = fmt::format("S-{}", machine),
                           .customer = fmt::format("Sample Works {}", machine % 50),
                           .day = fmt::format("{}-{:02}-{:02}", 2005 + visit / 4, 1 + 3 * (visit % 4), 1 + machine % 28),
                           .accuracy_um = 4 + ripple + (machine % 10 == 0 ? 0.3 * visit : 0)};
        if (again) {
            record.revision = 1;
            record.replaces = R"("revision": 0, "reason": "a sensor was read wrongly")";
        }
        write_light_record(root / fmt::format("machine-{:04}", machine) / record.job, record);
    }
    return 0;
}
