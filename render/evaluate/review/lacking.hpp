#pragma once
#include "evaluate/evaluation.hpp"

namespace wayfolio::evaluate {

/// What the document does not state, each with the purpose that asks for it, in the order of the purposes:
/// ISO/IEC 17025:2017 7.8.2.1 a-o and 7.8.4.1 (items paraphrased; some of 7.8.4.1 from memory), among them the condition of the
/// machine (g), when each series was measured (i) and with which instrument, its certificate and what that leads to (7.8.4.1 c); the
/// report on a test by ISO 230-2 [presentation clause from memory], the decision, the uncertainty.
/// Not asked for: what the report itself supplies (units, the end mark, the statement that results relate to this item) and what
/// only the laboratory can judge (receipt and sampling 7.8.2.1 h and k, deviations from the method n, outside providers p,
/// opinions).
std::vector<Lack> lacking_in(const document::Document& document);

/// The code of what is missing: what only the machine can give has its own, and so have traceability and the wavelength; the rest goes
/// by the purpose that asks.
FindingCode code_of(const Lack& lack);
FindingCode code_of_purpose(std::string_view purpose);

/// The parts of lacking_in().
void add_lacking_for_accreditation(std::vector<Lack>& lacking, const document::Document& document);
void add_lacking_for_machine_report(std::vector<Lack>& lacking, const document::Document& document);
void add_lacking_for_decision(std::vector<Lack>& lacking, const document::Document& document);
void add_lacking_for_uncertainty(std::vector<Lack>& lacking, const document::Document& document);

}  // namespace wayfolio::evaluate
