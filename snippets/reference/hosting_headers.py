"""The headers, one by one, for any other server."""

from lpv_site.build.hosting import headers

print("```http\n" + "\n".join(f"{name}: {value}" for name, value in headers().items()) + "\n```")
