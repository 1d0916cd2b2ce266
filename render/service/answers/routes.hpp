#pragma once
#include "service/answers/body.hpp"
#include "service/limits.hpp"
#include "text/shaper.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::service {

/// What a route takes as its body.
enum class Takes { Nothing, Document, Pdf, TwoDocuments, ExportsAlone, Exports, MaybeFacts, Batch };

/// One thing that the query of a route may say.
struct QueryOption {
    std::string_view name, meaning;
    std::vector<std::string_view> words{};  ///< what it may be; none: any text
    std::string_view standard{};            ///< what it is where it is not said; "" where that depends or it has to be said
    std::string_view example{};
    bool required = false;
};

/// The records that a service keeps, and its own index over them.
struct Shelf {
    std::filesystem::path records, index;
};

/// What a service does besides answering.
struct Offers {
    bool records = false, batches = false;
};

/// What a worker has at hand for all its answers.
struct Workshop {
    const text::Shaper& shaper;
    Limits limits;
    bool in_background = false;           ///< what others wait for goes first
    std::optional<Shelf> shelf{};         ///< of those who keep records, only
    std::filesystem::path batches{};      ///< the file of batches, of those who draw them, only
    std::filesystem::path previewed{};    ///< a document on this machine that is shown as it stands; "" for none
    std::filesystem::path samples{};      ///< a folder of documents to try the service with; "" for none
    Offers offers{};                      ///< of the service as a whole, whoever answers
};

/// A request whose query and body are read.
struct Call {
    const Request& request;
    std::map<std::string, std::string, std::less<>> options;  ///< each with its value, or its standard where that is not said
    Files files;
    std::string named;  ///< what stands for the part in braces of the route's path

    [[nodiscard]] const std::string& option(std::string_view name) const;
};

/// Who answers a route: any worker, those who keep records, those who keep batches.
enum class By { Any, Keepers, Clerks };

struct Route {
    std::string_view method, path;  ///< one piece of a path may be in braces: a name
    std::string_view name, summary;
    Takes takes = Takes::Nothing;
    std::vector<QueryOption> options;
    std::vector<std::string_view> gives;  ///< media types of its answers
    Answer (*answer)(const Call& call, const Workshop& workshop) = nullptr;
    By by = By::Any;
};

/// Every route of the service that a worker answers, in the order of the description.
std::span<const Route> routes();

/// The route of a method and a path. @throws Refused where there is none, or none for that method
const Route& route_of(std::string_view method, std::string_view path);

/// What may be done with a path, as the header Allow has it; "" where there is nothing.
std::string methods_of(std::string_view path);

/// Who answers a request.
By asked_of(const Request& request);

/// The answer to a request: whatever goes wrong is an answer too.
Answer answer_to(const Request& request, const Workshop& workshop);

/// The description of all of them as OpenAPI 3.1, JSON.
std::string open_api();

}  // namespace wayfolio::service
