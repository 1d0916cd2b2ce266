#include "front/run.hpp"

#include "program_help.inc"

int main(int argc, char** argv) { return wayfolio::front::run(argc, argv, program_help); }
