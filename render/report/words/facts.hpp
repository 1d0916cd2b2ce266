#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

/// Who, what, where, when: short for the first page, whole for the facts pages.
namespace wayfolio::report {

/// Customer, order, machine, axis, place, dates, standards.
std::vector<Fact> short_facts(const Subject& subject);

/// Job, laboratory, customer, machine with its axes, instruments.
std::vector<Section> fact_sections(const Subject& subject);

/// Standards that the evaluation follows, each once.
std::vector<std::string> standards_used(const evaluate::Evaluation& evaluation);

/// Adds a fact unless `value` is empty.
void add_fact(std::vector<Fact>& facts, const std::string& name, const std::string& value);

}  // namespace wayfolio::report
