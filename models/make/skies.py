# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
"""Unpacks the panoramas (CC0) from the npm package @pmndrs/assets, for rendered.py --sky. They are not kept here.

    npm pack @pmndrs/assets@1.7.0 && python3 models/make/skies.py pmndrs-assets-1.7.0.tgz OUT"""
import base64
import os
import re
import sys
import tarfile


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    if not os.path.exists(sys.argv[1]) or not tarfile.is_tarfile(sys.argv[1]):
        sys.exit("%s is no npm package. Fetch one: npm pack @pmndrs/assets@1.7.0" % sys.argv[1])
    os.makedirs(sys.argv[2], exist_ok=True)
    count = 0
    with tarfile.open(sys.argv[1]) as package:
        for member in package:
            name = re.fullmatch(r"package/hdri/([a-z0-9_-]+\.exr)\.js", member.name)
            if not name:
                continue
            coded = re.search(rb"base64,([A-Za-z0-9+/=]+)", package.extractfile(member).read())
            if not coded:
                sys.exit("%s holds no panorama as %s knows it." % (member.name, sys.argv[0]))
            with open(os.path.join(sys.argv[2], name[1]), "wb") as out:
                out.write(base64.b64decode(coded[1]))
            count += 1
    if not count:
        sys.exit("%s holds no panorama." % sys.argv[1])
    print(count, "panoramas")


main()
