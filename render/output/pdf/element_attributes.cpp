#include "output/pdf/element_attributes.hpp"

#include "output/pdf/qpdf.hpp"

#include <fmt/format.h>

namespace wayfolio::output {

namespace {

std::string figure(const TagRecord& record) {
    std::string words = " /Alt " + Handle::newUnicodeString(record.alternative).unparse();
    if (!record.box) return words;
    const frame::Rect& box = *record.box;
    const double bottom = record.page_height - box.bottom().in(units::point), top = record.page_height - box.top.in(units::point);
    return words + fmt::format(" /A <</O /Layout /Placement /Block /BBox [{:.2f} {:.2f} {:.2f} {:.2f}]>>", box.left.in(units::point), bottom,
                               box.right().in(units::point), top);
}

std::string cell(const TagRecord& record) {
    std::string words;
    if (record.scope != frame::Scope::None) words += record.scope == frame::Scope::Column ? " /Scope /Column" : " /Scope /Row";
    if (record.column_span != 1) words += fmt::format(" /ColSpan {}", record.column_span);
    return words.empty() ? words : fmt::format(" /A <</O /Table{}>>", words);
}

}  // namespace

std::string attributes_of(const TagRecord& record) {
    if (record.type == "Figure") return figure(record);
    if (record.type == "TH" || record.type == "TD") return cell(record);
    return {};
}

}  // namespace wayfolio::output
