#include "service/records/shelf.hpp"

#include "archive/record/bag.hpp"
#include "archive/verify/unchanged.hpp"
#include "catalogue/index.hpp"
#include "catalogue/visit.hpp"
#include "files/output_failed.hpp"
#include "service/answers/problem.hpp"
#include "service/log/log.hpp"

#include <fmt/ranges.h>

#include <algorithm>

namespace wayfolio::service {
namespace {

/// In lower case, without what stands before it in a list of inputs. @throws Refused
std::string digits_of(const std::string& fingerprint) {
    constexpr std::size_t least = 16, most = 64;
    std::string digits = fingerprint.starts_with("sha256:") ? fingerprint.substr(7) : fingerprint;
    std::ranges::transform(digits, digits.begin(), [](char c) { return c >= 'A' && c <= 'F' ? static_cast<char>(c - 'A' + 'a') : c; });
    if (digits.size() < least || digits.size() > most || digits.find_first_not_of("0123456789abcdef") != std::string::npos)
        throw Refused(problems::unknown_option,
                      fmt::format("a record is called by {} to {} hexadecimal digits of its fingerprint", least, most));
    return digits;
}

}  // namespace

const Shelf& shelf_in(const Workshop& workshop) {
    if (!workshop.shelf) throw Refused(problems::no_records, "wayfolio serve --records DIR keeps some");
    return *workshop.shelf;
}

void refuse_unkept(const std::exception& failed) {
    log_event("not kept", failed.what());
    throw Refused(problems::not_kept, "");
}

OpenShelf open_shelf(const Workshop& workshop) {
    const Shelf& shelf = shelf_in(workshop);
    try {
        catalogue::Indexed done = catalogue::update_index(shelf.records, shelf.index);
        return {catalogue::open_index(shelf.index), std::move(done.problems)};
    } catch (const files::OutputFailed& failed) { refuse_unkept(failed); } catch (const input::InputMissing& gone) {
        refuse_unkept(gone);
    }
}

catalogue::ListedVisit visit_of(const std::string& fingerprint, const Workshop& workshop) {
    catalogue::Query query;
    query.fingerprint = digits_of(fingerprint);
    const OpenShelf shelf = open_shelf(workshop);
    auto visits = catalogue::find_visits(shelf.database, query);
    if (visits.empty()) throw Refused(problems::nothing_there, "no sound record has that fingerprint");
    return std::move(visits.front());  // copies of one record have one fingerprint
}

std::filesystem::path folder_of(const std::string& fingerprint, const Workshop& workshop) {
    const std::filesystem::path& records = shelf_in(workshop).records;
    const std::string digits = digits_of(fingerprint);
    try {
        return records / visit_of(digits, workshop).folder;
    } catch (const Refused& refused) {
        if (refused.kind().code != problems::nothing_there.code) throw;
    }
    // The index passes over a damaged one, and just that has to be told.
    for (const std::filesystem::path& bag : catalogue::find_bags(records).bags)
        if (archive::bag_info(bag, "Wayfolio-Fingerprint").starts_with("sha256:" + digits)) return bag;
    throw Refused(problems::nothing_there, "no record has that fingerprint");
}

std::filesystem::path unchanged_folder(const std::string& fingerprint, const Workshop& workshop) {
    std::filesystem::path folder = folder_of(fingerprint, workshop);
    if (const auto faults = archive::bag_faults(folder); !faults.empty())
        throw Refused(problems::record_changed, fmt::format("{}", fmt::join(faults, "; ")));
    return folder;
}

archive::Making making_of(const std::string& fingerprint, const Workshop& workshop) {
    return archive::unchanged_from(unchanged_folder(fingerprint, workshop));
}

}  // namespace wayfolio::service
