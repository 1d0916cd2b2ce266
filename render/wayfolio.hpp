#pragma once
#include "archive/record/record.hpp"
#include "archive/verify/verify.hpp"
#include "catalogue/history_figure.hpp"
#include "catalogue/index.hpp"
#include "catalogue/query.hpp"
#include "certificate/certificate.hpp"
#include "compare/comparison.hpp"
#include "document/read_document.hpp"
#include "evaluate/evaluation.hpp"
#include "evaluate/review/site/findings.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "files/write_file.hpp"
#include "gather/gather.hpp"
#include "input/data_folder.hpp"
#include "input/problem.hpp"
#include "layouts/layout.hpp"
#include "output/output.hpp"
#include "produce/comparison.hpp"
#include "produce/produce.hpp"
#include "text/shaper.hpp"
#include "units/version.hpp"

/// All that a user of the library needs: a document is gathered or read, evaluated, drawn, written, kept, found again and compared.
///
/// Stages take values and return values (document::Document -> evaluate::Evaluation -> bytes); nothing is global, and values are never
/// changed behind the caller's back. Units are in the types: `.in(units::micrometre)`. A value that the data cannot support is a
/// NotEvaluated with its reason. What does not work is thrown: input::InputRejected (all faults of an input at once, each with file,
/// line, column and JSON Pointer), input::InputMissing, files::OutputFailed, text::FontFailed.
///
/// Threads: calls on different values may run beside each other; a text::Shaper serves one thread at a time.
/// Only this header and those that it includes are installed.
namespace wayfolio {}
