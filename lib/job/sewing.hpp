// The rows as they are sewn, for a screen at the machine.
#pragma once

#include "job/answer.hpp"

namespace farflung::job {

/// {"rows": [{"name", "stack", "cells": [...], "seams": [...], "press"}], "steps": [...]}: cells by
/// their place in the list of drawn(), null for a filler, in the order of sewing; seams in words, the k-th between
/// places k and k + 1.
Outcome sewing(const std::string& folder);

}  // namespace farflung::job
