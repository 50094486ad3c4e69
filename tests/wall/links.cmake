# Walls whose layout is known come from the bench of the same name; the whole loop goes through the jobs.
if(NOT TARGET farflung_wall_trial)
  add_subdirectory(${PROJECT_SOURCE_DIR}/tools/wall_bench ${CMAKE_CURRENT_BINARY_DIR}/wall_bench)
endif()
set(links farflung_wall_trial farflung_job nlohmann_json::nlohmann_json)
