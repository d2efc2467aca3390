"""All direct calls and the first jobs, to be run under coverage: they alone must take every branch of the kernel."""

from tests.kernel.parity import calls, making, record, sides

FIRST_JOBS = 500


def main():
    """Ask everything; what comes of it is compared elsewhere."""
    kernel = calls.modules()
    asked = record.chunk(0) + [record.answering(job) for job in making.chunk(1, FIRST_JOBS)]
    for call in asked:
        sides.in_python(call, kernel)


if __name__ == "__main__":
    main()
