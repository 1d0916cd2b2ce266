#pragma once
#include "archive/record/making.hpp"
#include "catalogue/query.hpp"
#include "database/database.hpp"
#include "service/answers/routes.hpp"

/// The records behind the service. Nobody names a path: a revision is called by its fingerprint, as the foot of its report shows it.
namespace wayfolio::service {

/// @throws Refused where the service keeps no records
const Shelf& shelf_in(const Workshop& workshop);

/// For the log, why something could not be kept: it names places on this machine. @throws Refused always
[[noreturn]] void refuse_unkept(const std::exception& failed);

/// The index, up to date with the records.
struct OpenShelf {
    database::Database database;
    std::vector<std::string> damaged;  ///< records that were passed over, each in one line
};
OpenShelf open_shelf(const Workshop& workshop);

/// The sound revision of a fingerprint (at least its first 16 digits). @throws Refused where there is none, or it is no fingerprint
catalogue::ListedVisit visit_of(const std::string& fingerprint, const Workshop& workshop);

/// The folder of a revision, sound or not. @throws Refused as visit_of()
std::filesystem::path folder_of(const std::string& fingerprint, const Workshop& workshop);

/// The same. @throws Refused also with each file that is not as it was filed
std::filesystem::path unchanged_folder(const std::string& fingerprint, const Workshop& workshop);

/// What was kept of it. @throws input::InputRejected
archive::Making making_of(const std::string& fingerprint, const Workshop& workshop);

}  // namespace wayfolio::service
