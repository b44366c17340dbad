"""Pictures: stages of placed meshes drawn as step pictures. Importing this package loads no renderer."""
