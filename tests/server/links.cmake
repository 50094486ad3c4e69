set(links nlohmann_json::nlohmann_json)
