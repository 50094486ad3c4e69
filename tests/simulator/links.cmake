set(links farflung_simulator nlohmann_json::nlohmann_json)
