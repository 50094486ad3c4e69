set(links farflung_fuzz_quilt farflung_fuzz_pattern farflung_fuzz_threads farflung_fuzz_photograph farflung_fuzz_gradation
          farflung_fuzz_request)
