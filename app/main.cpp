// The program: reads the command line, has a job done, shows what it gives back.
#include "command_line.hpp"

int main(int count, char** words) { return farflung::app::run(count, words); }
