"""The calls in the examples of the kernel's docstrings: [module, function, arguments]."""

import copy
import doctest

from tests.kernel.parity.calls import modules, public_functions


def of(module):
    """What the examples of one module call, of its own functions."""
    found = []

    def recorded(f):
        def call(*given):
            found.append([f.__module__.split(".")[-1], f.__name__, copy.deepcopy(list(given))])
            return f(*given)

        return call

    own = {f.__name__: recorded(f) for f in public_functions(module)}
    runner = doctest.DocTestRunner(verbose=False)
    for test in doctest.DocTestFinder().find(module):
        test.globs |= own
        runner.run(test, out=lambda text: None)
    assert runner.failures == 0, f"the examples of {module.__name__} fail"
    return found


def calls():
    """Those of all modules."""
    return [call for module in modules().values() for call in of(module)]
