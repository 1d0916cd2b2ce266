// wayfolio-parse FILE: reads a file by nlohmann's parser, keeps the value, and does nothing with it.
#include <nlohmann/json.hpp>

#include <fstream>

int main(int count, char** words) {
    if (count != 2) return 2;
    std::ifstream file(words[1], std::ios::binary);
    const nlohmann::json value = nlohmann::json::parse(file, nullptr, /*allow_exceptions=*/false);
    return value.is_discarded() ? 1 : 0;
}
