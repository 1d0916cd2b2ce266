#include "output/dates.hpp"

#include <regex>
#include <stdexcept>

namespace wayfolio::output {

namespace {

std::smatch parts_of(const std::string& date) {
    static const std::regex form(R"((\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d)(?:\.\d+)?)?(Z|[+-]\d\d:\d\d)?)?)");
    std::smatch parts;
    if (!std::regex_match(date, parts, form)) throw std::logic_error("\"" + date + "\" is no ISO 8601 date");
    return parts;
}

std::string or_else(const std::ssub_match& part, const char* otherwise) { return part.matched ? part.str() : otherwise; }

}  // namespace

std::string whole_time(const std::string& date) {
    if (date.empty()) return "1970-01-01T00:00:00Z";
    const std::smatch part = parts_of(date);
    return part[1].str() + "-" + part[2].str() + "-" + part[3].str() + "T" + or_else(part[4], "00") + ":" +
           or_else(part[5], "00") + ":" + or_else(part[6], "00") + or_else(part[7], "Z");
}

std::string pdf_date(const std::string& whole_time) {
    const std::smatch part = parts_of(whole_time);
    const std::string zone = part[7].str();
    const std::string offset = zone == "Z" ? "+00'00'" : zone.substr(0, 3) + "'" + zone.substr(4) + "'";
    return "D:" + part[1].str() + part[2].str() + part[3].str() + part[4].str() + part[5].str() + part[6].str() + offset;
}

}  // namespace wayfolio::output
