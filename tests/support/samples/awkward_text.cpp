#include "support/samples/awkward_parts.hpp"

/// Documents whose texts or pictures are unusual.
namespace wayfolio::samples {
namespace {

Json small_series() {
    Noise noise(5);
    RunPlan plan;
    plan.targets = {0, 100, 190, 310, 400};
    plan.runs_each_way = 3;
    Json series = bare_series(middling_axis(400), "EXX", "x", plan, noise);
    series["tolerances"] = Json::array({tolerance("A", 8, "um", "order")});
    return series;
}

/// A chequered rectangle of 24 x 12 pixels, as a PNG.
constexpr const char* png_logo =
    "data:image/"
    "png;base64,"
    "iVBORw0KGgoAAAANSUhEUgAAABgAAAAMCAIAAAD3UuoiAAAAJElEQVR42mOQ96uEo2dvPsARqeIMw9ggSjQjiw9ng0bTEUFxALdKDp8VrCsnAAAAAElFTkSuQmC"
    "C";

}  // namespace

Json long_names() {
    // Each name is 60 characters long.
    Json document =
        bare_document("AW-05", "Names of sixty characters in any place that a name can have.", Json::array({small_series()}));
    document["job"]["customer"] = {{"name", "Example Works for Very Long Machine Beds and Heavy Slideways"},
                                   {"address", Json::array({"Building Number Twenty-Six, 123 Extraordinarily Long Street."})}};
    document["job"]["laboratory"] = {{"name", "Example Laboratory for the Calibration of Long Machine Axes."}};
    document["job"]["people"] = Json::array({{{"role", "measured by the engineer who is responsible for the set-ups."},
                                              {"name", "Engineer of the Department for Geometry of Long Machine Axes"}}});
    document["machine"] = {{"kind", "gantry milling machine with a long bed and a cross rail, new"},
                           {"maker", "Example Machine Builders for Long Beds, Gantries, and Tables"},
                           {"model", "Demonstrator With a Model Name That Goes On and On and On 60"},
                           {"serial", "000000000000000000000000000000000000000000000000000000000007"}};
    document["series"][0]["state"] = "after the second levelling of the bed and a week of settling";
    document["series"][0]["tolerances"][0]["source"] = "Agreement between builder and owner on the geometry, sheet 3";
    return document;
}

Json greek_and_cyrillic() {
    Json document = bare_document("AW-06", "Δοκιμή άξονα Χ - Проверка оси X", Json::array({small_series()}));
    document["job"]["customer"] = {{"name", "Εργοστάσιο Παράδειγμα"},
                                   {"address", {"Οδός Παραδείγματος 1", "Улица Примерная, дом 7"}}};
    document["job"]["remarks"] = {"Ελληνικό κείμενο με τόνους: ή, ώ, ΐ.", "Кириллица: щ, ъ, ё, й.", "Žluťoučký, Ångström, çığ."};
    return document;
}

Json script_without_font() {
    return bare_document("AW-07", "A text that the report's fonts cannot set: \xe0\xa4\x85\xe0\xa4\x95\xe0\xa5\x8d\xe0\xa4\xb7",
                         Json::array({small_series()}));
}

Json draft_with_internal_remarks() {
    Json document = bare_document("AW-10", "A draft with remarks for the office only", Json::array({small_series()}));
    document["job"]["status"] = "draft";
    document["job"]["remarks"] = Json::array({"Readings still to be compared with the note book."});
    document["job"]["internal"] = {{"remarks", Json::array({"INTERNAL: the customer has not paid for the second visit."})},
                                   {"x-visit", "INTERNAL second"}};
    document["series"][0]["internal"] = {
        {"remarks", Json::array({"INTERNAL: clamp of the reflector was loose in the first attempt."})}};
    return document;
}

Json logo_beside() {
    Json document = bare_document("AW-11", "A logo that lies beside the document", Json::array({small_series()}));
    document["job"]["laboratory"] = {{"name", "Example Calibration Laboratory"}, {"logo", "logo.svg"}};
    return document;
}

Json logo_inside() {
    Json document = bare_document("AW-13", "A logo that stands in the document", Json::array({small_series()}));
    document["job"]["laboratory"] = {{"name", "Example Calibration Laboratory"}, {"logo", png_logo}};
    return document;
}

}  // namespace wayfolio::samples
