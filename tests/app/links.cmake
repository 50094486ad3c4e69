set(links nlohmann_json::nlohmann_json)
#The program itself is what is tested.
