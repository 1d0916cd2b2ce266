#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

/// An index over records: what a machine's visits said, without reading every record again.
namespace wayfolio::catalogue {

/// One evaluated parameter of a visit, its numbers in `unit`, as the record's evaluation has them.
struct Result {
    std::string series, error, axis, state, parameter, unit;
    std::optional<double> value, expanded, limit;
    std::string outcome;  ///< of its decision: "pass", "undecided" ...; empty where no limit is stated
    std::string reason;   ///< why there is no value or no verdict
    std::string reference_line;      ///< of a straightness or squareness: "least_squares" ...
    std::optional<double> low, high;  ///< first and last target, in mm or degrees
    bool answers = true;  ///< speaks for the machine as it was left: of the last state, or of a quantity measured in an earlier one only
};

/// One revision of a job, as its record has it.
struct Visit {
    std::string folder;  ///< of the bag, below the catalogue's folder
    std::string stamp;   ///< changes when a file that was read changes
    std::string job, title, customer, machine, serial, day, fingerprint, notice;  ///< `day`: when measured, else issued; YYYY-MM-DD
    std::string due{};  ///< the day until which the next measurement was agreed; empty where none was
    std::string vertical;  ///< name of the machine's vertical axis, which tells pitch from yaw; empty where not stated
    int revision = 0;
    std::string replaces_job;  ///< number of the replaced report; empty where the job's own
    std::optional<int> replaces_revision;
    std::string fault;  ///< why the record was passed over; empty for a sound one
    std::vector<Result> results;
    std::vector<std::string> instruments{};  ///< their serial numbers, squares among them
    std::string first_state{};  ///< where the visit compares two: what the machine was found in
};

/// The folders below `root` (or itself) that hold a revision, and what could not be looked into. Links are not followed, so a
/// loop of them is none here; hidden folders are what interrupted runs left, and are passed over.
struct Tree {
    std::vector<std::filesystem::path> bags;
    std::vector<std::string> unreadable;
};
Tree find_bags(const std::filesystem::path& root);

/// Sizes and times of change of the files that read_visit() looks at.
std::string stamp_of(const std::filesystem::path& bag);

/// Reads one revision: the evaluation that it holds, not the readings again. The files read are held against the bag's manifest;
/// a damaged bag gives a visit with a fault. @param root the catalogue's folder
Visit read_visit(const std::filesystem::path& root, const std::filesystem::path& bag);

}  // namespace wayfolio::catalogue
