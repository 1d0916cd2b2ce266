#pragma once
#include "archive/record/making.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::archive {

enum class Holds { Yes, No, NotShown };

/// One thing that was looked at.
struct Check {
    std::string what;
    Holds holds = Holds::Yes;
    std::vector<std::string> details;  ///< each fault in one line, or what limits the answer
    bool other_build = false;          ///< not shown, since another version or build made it, which says or draws it otherwise
};

/// What was found of a PDF or a record.
struct Verification {
    std::string file, fingerprint;  ///< the fingerprint: of a record's newest revision; "" where it cannot be had
    std::vector<Check> checks;
    bool against_given = false;     ///< a fingerprint kept elsewhere was given; whether it is the same is a check
    [[nodiscard]] bool sound() const;
    /// Whether pages or numbers could not be compared, since another version or build made them.
    [[nodiscard]] bool by_other_build() const;
};

struct VerifyRequest {
    const text::Shaper& shaper;
    std::string against;  ///< a fingerprint from elsewhere: at least the 16 digits of the foot; "" if none
    std::filesystem::path folder{};  ///< of a PDF, where its large side files lie; "" where nothing may be opened
};

/// Neither a PDF of this program nor a record, not even a damaged one.
class NothingToVerify : public input::InputRejected {
public:
    using InputRejected::InputRejected;
};

/// Looks at what a PDF carries: completeness, digests, every number evaluated again, the drawing made again.
/// Damage is part of the verdict, never thrown. @throws NothingToVerify, NotOneResult
Verification verify_pdf(const std::string& pdf, const std::string& name, const VerifyRequest& request);

/// The same for a record, every revision of it, or for one revision; also the bag's manifests and the chain of revisions.
/// @throws NothingToVerify
Verification verify_record(const std::filesystem::path& folder, const VerifyRequest& request);

/// As lines for a person; as JSON for other programs ("wayfolio-verification"), as verification_schema() describes it.
std::string verification_text(const Verification& verdict);
std::string verification_json(const Verification& verdict);

/// JSON Schema (draft 7) of the JSON of a verification.
std::string_view verification_schema();

}  // namespace wayfolio::archive
