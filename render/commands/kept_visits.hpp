#pragma once
#include "catalogue/query.hpp"
#include "database/database.hpp"
#include "commands/command.hpp"

#include <memory>
#include <string>
#include <vector>

namespace wayfolio::commands {

/// Which records a command looks among, and for what.
struct VisitSearch {
    std::string folder, index;
    bool as_indexed = false;
    catalogue::Query query;
};

/// Adds the folder and the options that catalogue and history share.
void add_search(CLI::App& verb, const std::shared_ptr<VisitSearch>& search);

struct FoundVisits {
    database::Database database;
    std::vector<std::string> damaged;  ///< records that were passed over, each in one line
};

/// Brings the index up to the records, where it may, and opens it; damaged records are told.
FoundVisits open_catalogue(const VisitSearch& search, const Console& console);

}  // namespace wayfolio::commands
