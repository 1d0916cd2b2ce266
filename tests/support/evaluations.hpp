#pragma once
#include "evaluate/evaluation.hpp"
#include "support/documents.hpp"

#include <stdexcept>
#include <string>

/// Looking into evaluations from tests.
namespace wayfolio::support {

inline evaluate::SeriesEvaluation evaluated(const document::Series& series) {
    return evaluate::evaluate(document(series)).series.front();
}

/// The value of a parameter in the series' own unit; a test fails where there is none.
inline double value(const evaluate::SeriesEvaluation& series, const std::string& name) {
    const auto* parameter = evaluate::find_parameter(series, name);
    if (parameter == nullptr) throw std::runtime_error("no parameter " + name);
    const auto* deviation = evaluate::value_of(parameter->value);
    if (deviation == nullptr) throw std::runtime_error(name + ": " + std::get<evaluate::NotEvaluated>(parameter->value).reason);
    return deviation->in(series.unit);
}

/// Why a parameter is not evaluated; empty where it is.
inline std::string reason(const evaluate::SeriesEvaluation& series, const std::string& name) {
    const auto* parameter = evaluate::find_parameter(series, name);
    if (parameter == nullptr) throw std::runtime_error("no parameter " + name);
    const auto* obstacle = std::get_if<evaluate::NotEvaluated>(&parameter->value);
    return obstacle == nullptr ? "" : obstacle->reason;
}

/// A set-up check that gives the beam's offset from axis X at a position, both in mm.
inline document::SetupCheck beam_offset(const std::string& name, double position, double reading) {
    document::SetupCheck check;
    check.name = name;
    check.axis = "X";
    check.unit = "mm";
    check.position = position;
    check.reading = reading;
    return check;
}

}  // namespace wayfolio::support
