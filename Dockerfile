# syntax=docker/dockerfile:1
# Two stages: the first builds a wheel and installs it with what it needs, the second carries only the result.
FROM python:3.11.13-slim-bookworm AS build
WORKDIR /build
COPY . .
RUN python -m venv /opt/casewright \
 && /opt/casewright/bin/pip install --no-cache-dir .

FROM python:3.11.13-slim-bookworm
RUN useradd --system --uid 10001 --no-create-home --shell /usr/sbin/nologin casewright
COPY --from=build /opt/casewright /opt/casewright
USER 10001
ENV PATH=/opt/casewright/bin:$PATH PYTHONUNBUFFERED=1 PYTHONDONTWRITEBYTECODE=1
EXPOSE 8000
HEALTHCHECK --interval=10s --timeout=3s --start-period=5s \
  CMD ["python", "-c", "import urllib.request as u; u.urlopen('http://127.0.0.1:8000/healthz', timeout=2).read()"]
CMD ["casewright", "serve", "--host", "0.0.0.0", "--port", "8000"]
