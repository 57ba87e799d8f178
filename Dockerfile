# Two stages: the first builds a wheel and installs it with what it needs, the second carries only the result.
# `.ci/image` replays these steps without an image and lints this file. All that is installed is downloaded first, by the
# versions and hashes of api/deploy/constraints.txt.
# The base's version may be pinned to its digest, which `docker buildx imagetools inspect` prints:
#   docker build --build-arg BASE=python:3.11.13-slim-bookworm@sha256:... .
ARG BASE=python:3.11.13-slim-bookworm
FROM $BASE AS build
WORKDIR /build
# hadolint ignore=DL3008
RUN apt-get update && apt-get install --yes --no-install-recommends gcc libc6-dev && rm -rf /var/lib/apt/lists/*
COPY . .
RUN python -m venv /build/tools \
 && /build/tools/bin/pip download --no-cache-dir --require-hashes --only-binary :all: --dest /build/wheels \
    --requirement api/deploy/constraints.txt \
 && /build/tools/bin/pip install --no-cache-dir --upgrade --no-index --find-links /build/wheels setuptools mypy \
 && CASEWRIGHT_COMPILE=1 \
    /build/tools/bin/pip wheel --no-cache-dir --no-deps --no-build-isolation --wheel-dir /build/wheels .
RUN python -m venv /opt/casewright \
 && /opt/casewright/bin/pip install --no-cache-dir --no-index --find-links /build/wheels "casewright[all]" \
 && /opt/casewright/bin/pip uninstall --yes pip setuptools

FROM $BASE
RUN useradd --system --uid 10001 --no-create-home --shell /usr/sbin/nologin casewright
COPY --from=build /opt/casewright /opt/casewright
USER 10001
ENV HOME=/nonexistent TMPDIR=/dev/shm PATH=/opt/casewright/bin:$PATH PYTHONUNBUFFERED=1 PYTHONDONTWRITEBYTECODE=1 \
    CASEWRIGHT_HOST=0.0.0.0 CASEWRIGHT_METRICS_HOST=0.0.0.0 CASEWRIGHT_DRAIN_SECONDS=5
EXPOSE 8000
HEALTHCHECK --interval=10s --timeout=3s --start-period=10s \
  CMD ["python", "-c", "import urllib.request as u; u.urlopen('http://127.0.0.1:8000/healthz', timeout=2).read()"]
CMD ["casewright", "serve"]
