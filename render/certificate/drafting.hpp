#pragma once
#include "certificate/certificate.hpp"
#include "certificate/xml_writer.hpp"

#include <optional>
#include <set>

/// The parts of certificate_draft(), each of which writes one element of the structure. Private to this room.
namespace wayfolio::certificate {

struct Drafting {
    const document::Document& document;
    const evaluate::Evaluation& evaluation;
    XmlWriter xml{};
    std::vector<Missing> missing{};
    std::set<std::string> ids{};  ///< of the quantities written so far, for references

    /// Notes what the structure asks for and the document does not state; a comment stands in its place.
    void lacks(const std::string& what, const std::string& pointer);
    /// Writes an element with what the document states, or notes that it does not.
    void put_or_lack(std::string_view element, const std::string& stated, const std::string& what, const std::string& pointer);
};

/// Words for a text of the structure. Ours are English and say so; the language of the document's own is not stated.
struct Phrase {
    std::string text;
    bool ours;
};
inline Phrase ours(std::string text) { return {std::move(text), true}; }
inline Phrase given(std::string text) { return {std::move(text), false}; }

bool is_stated(std::string_view words);
/// An element with one content for each of `lines` that says something; nothing where none does.
void put_lines(XmlWriter& xml, std::string_view element, const std::vector<Phrase>& lines);
inline void put_name(XmlWriter& xml, Phrase words) { put_lines(xml, "dcc:name", {std::move(words)}); }

enum class Issuer { Manufacturer, Customer, Laboratory, Other };
/// One identification; nothing where `value` is empty.
void put_identification(XmlWriter& xml, Issuer issuer, const std::string& value, const std::string& name);

// Parts of the administrative data.
void put_core_data(Drafting& drafting);
void put_items(Drafting& drafting);
void put_laboratory(Drafting& drafting);
void put_persons(Drafting& drafting);
void put_customer(Drafting& drafting);
void put_statements(Drafting& drafting);

// Measurement results and their parts.
void put_series_result(Drafting& drafting, std::size_t place);
void put_squareness_result(Drafting& drafting, std::size_t place);
void put_methods(Drafting& drafting, const std::string& norm, const std::vector<Phrase>& remarks);
/// The instruments of these series, and those that no series names, as an air station.
void put_equipment(Drafting& drafting, const std::vector<const document::Series*>& used_by, const document::SquarenessRequest* square);
void put_conditions(Drafting& drafting, const document::Series& series);
/// Values at the targets as lists, all values of a list at the same positions.
void put_target_lists(Drafting& drafting, const evaluate::SeriesEvaluation& series);
void put_parameters(Drafting& drafting, const evaluate::SeriesEvaluation& series, const std::string& id);
/// One statement of conformity for each decision, which refers to the quantity that it judges.
void put_conformity(Drafting& drafting, const std::vector<std::pair<const evaluate::Decision*, std::string>>& decisions);

/// Id of a quantity: of the measurement's id and the parameter.
std::string quantity_id(const std::string& measurement, std::string_view parameter);
std::string local_id(const std::string& measurement, std::size_t place);
/// "axis-1": the item of an axis, by its place among the axes that are calibrated.
std::optional<std::string> axis_item_id(const document::Document& document, std::string_view axis);
/// The axes that the document's series move, each once, in the document's order.
std::vector<std::string> axes_measured(const document::Document& document);

}  // namespace wayfolio::certificate
