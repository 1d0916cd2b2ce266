#include "catalogue/query.hpp"
#include "evaluate/written/json_text.hpp"
#include "input/encoding.hpp"

namespace wayfolio::catalogue {

std::string listing_json(const std::vector<ListedVisit>& visits, const std::vector<std::string>& damaged) {
    using evaluate::Json;
    Json list = Json::array();
    for (const ListedVisit& visit : visits)
        list.push_back({{"folder", input::printable(visit.folder)},
                        {"job", visit.job},
                        {"revision", visit.revision},
                        {"replaced", visit.replaced},
                        {"title", visit.title},
                        {"customer", visit.customer},
                        {"machine", visit.machine},
                        {"serial", visit.serial},
                        {"day", visit.day},
                        {"verdict", visit.verdict},
                        {"as_found", visit.found.empty() ? Json(nullptr) : Json(visit.found)},
                        {"due", visit.due.empty() ? Json(nullptr) : Json(visit.due)},
                        {"fingerprint", input::printable(visit.fingerprint)}});
    Json lines = Json::array();
    for (const std::string& one : damaged) lines.push_back(input::printable(one));
    return evaluate::to_text(Json{{"format", "wayfolio-catalogue"}, {"version", 1}, {"visits", list}, {"damaged", lines}});
}

}  // namespace wayfolio::catalogue
