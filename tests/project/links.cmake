set(links nlohmann_json::nlohmann_json)
list(APPEND sources ${folder}/failing_calls.cpp)
