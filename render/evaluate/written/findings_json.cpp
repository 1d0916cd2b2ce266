#include "evaluate/review/site/findings.hpp"

#include "evaluate/review/lacking.hpp"
#include "evaluate/written/json_parts.hpp"

namespace wayfolio::evaluate {

namespace {

Json unmet_json(const Condition& condition) {
    return {{"name", condition.name}, {"holds", condition.holds ? Json(*condition.holds) : Json(nullptr)}, {"text", condition.text}};
}

Json support_json(const SeriesFinding& series) {
    Json json{{"series", series.id},
              {"error", series.error},
              {"source", series.source == Source::Stated ? "stated" : "runs"},
              {"evaluated", series.evaluated},
              {"not_evaluated", Json::object()},
              {"conditions", Json::array()}};
    for (const auto& [name, reason] : series.not_evaluated) json["not_evaluated"][name] = reason;
    for (const Condition& condition : series.unmet) json["conditions"].push_back(unmet_json(condition));
    return json;
}

}  // namespace

std::string findings_json(const Findings& findings) {
    Json json{{"format", "wayfolio-findings"}, {"version", 1},
              {"faults", Json::array()},       {"warnings", Json::array()},
              {"lacking", Json::array()},      {"supports", Json::array()}};
    for (const input::Problem& fault : findings.faults) json["faults"].push_back(fault_json(fault));
    for (const Warning& warning : findings.warnings)
        json["warnings"].push_back({{"code", word(warning.code)}, {"pointer", warning.pointer}, {"text", warning.text}});
    for (const Lack& lack : findings.lacking)
        json["lacking"].push_back({{"code", word(code_of(lack))}, {"for", lack.purpose}, {"what", lack.what}, {"pointer", lack.pointer}});
    for (const SeriesFinding& series : findings.supports) json["supports"].push_back(support_json(series));
    if (findings.faults.empty()) {
        json["before_leaving"] = Json::array();
        for (const BeforeLeaving& line : findings.before_leaving)
            json["before_leaving"].push_back({{"code", word(line.code)},
                                              {"about", word(concern(line.code))},
                                              {"at_machine", at_machine(line.code)},
                                              {"what", line.what},
                                              {"where", line.where},
                                              {"how_sure", line.how_sure},
                                              {"do", line.act}});
        json["last_line"] = last_line(findings.before_leaving);
    }
    return to_text(json);
}

}  // namespace wayfolio::evaluate
